//! Passport data of plants, one row an accession. What is private is written only where it is asked for.
//!
//! Codes of SAMPSTAT as in the descriptors: 400 breeding or research material, 412 hybrid, 500 advanced or improved
//! cultivar.

use super::mcpd::{Accession, FIELDS};
use super::table::ExportTable;
use crate::analysis::export::{Ancestry, Passport, Passports, Status, Unsaid};
use crate::context::Context;
use crate::lineage::PlantRow;
use crate::observation::raised::{Raised, raised};
use crate::registry::Registry;
use crate::wording::counted;

/// What is filled in beyond what everybody may read.
#[derive(Clone, Debug, Default)]
pub struct PassportOptions {
    /// The holder's code in the list of institutes.
    pub institute: Option<String>,
    /// Who a plant came from, that one's number for it, and its code in another registry.
    pub suppliers: bool,
    /// The grower as the breeder of what was raised here.
    pub breeder: bool,
    /// Claims about where a line came from in the wild.
    pub localities: bool,
}

/// The passport data of plants.
pub fn passport_table<'c>(
    context: &'c Context,
    plants: Vec<PlantRow>,
    options: PassportOptions,
) -> ExportTable<'c> {
    let passports = Passports::of(context.evidence(), &plants);
    let said = counted(plants.len(), "plant", "plants");
    let said = format!("{said}; {}", private(&options));
    let row = move |plant| {
        let passport = passports.passport(plant);
        let mut accession = Accession::default();
        named(context.registry, &passport, &mut accession);
        descended(&passport, &mut accession);
        asked_for(context.registry, plant, &options, &mut accession);
        accession.cells()
    };
    ExportTable::of(FIELDS, plants, row).remarked(said)
}

/// What of the table is private, in words.
fn private(options: &PassportOptions) -> String {
    let filled = [
        options.suppliers.then_some("suppliers"),
        options.breeder.then_some("your name"),
        options.localities.then_some("claimed localities"),
    ];
    let filled: Vec<&str> = filled.into_iter().flatten().collect();
    match filled.is_empty() {
        true => "no suppliers, buyers, prices, notes, places or names of people in it".to_owned(),
        false => format!("private, because you asked for it: {}", filled.join(", ")),
    }
}

/// What it is called and when it came.
fn named(registry: &Registry, passport: &Passport, accession: &mut Accession) {
    let plant = passport.plant;
    accession.fill("ACCENUMB", Some(registry.code(plant)));
    accession.fill("GENUS", Some(registry.settings.genus));
    match &passport.named.taxon {
        Some(taxon) => {
            accession.fill("SPECIES", Some(taxon.epithet.as_str()));
            accession.fill("SPAUTHOR", taxon.authors.clone());
            accession.fill("SUBTAXA", taxon.below.clone());
        }
        None => accession.fill("SPECIES", Some("sp.")),
    }
    if passport.named.taxon.is_none() && passport.named.ancestry.is_none() {
        accession.remark("SPECIES", &passport.named.formula);
    }
    for doubt in &passport.named.doubts {
        accession.remark("SPECIES", doubt);
    }
    if let Some(cultivar) = registry.cultivar(plant) {
        accession.fill("ACCENAME", Some(cultivar.epithet.to_string()));
        if cultivar.published.is_none() {
            accession.remark("ACCENAME", "no publication of this epithet is on record");
        }
    }
    if let Some(acquired) = passport.acquired {
        accession.date("ACQDATE", acquired);
    }
}

/// Its ancestry, and how surely that is known.
fn descended(passport: &Passport, accession: &mut Accession) {
    let status = passport.status.map(|status| match status {
        Status::Bred => "400",
        Status::Hybrid => "412",
        Status::Cultivar => "500",
    });
    accession.fill("SAMPSTAT", status);
    let field = match &passport.named.ancestry {
        Some(Ancestry::Purdy(text)) => {
            accession.fill("ANCEST", Some(text.as_str()));
            "ANCEST"
        }
        Some(Ancestry::Formula(text)) => {
            accession.fill("ANCEST", Some(text.as_str()));
            accession.remark(
                "ANCEST",
                "a formula, since Purdy notation cannot say all that is recorded",
            );
            "ANCEST"
        }
        None => "SPECIES",
    };
    if field == "ANCEST" {
        for words in unsaid(passport.named.unsaid) {
            accession.remark(field, words);
        }
    }
    accession.remark(field, &passport.evidence);
}

/// What the text of an ancestry does not show, in words.
fn unsaid(of: Unsaid) -> Vec<&'static str> {
    let order = match (of.has_assumed_order, of.has_known_order) {
        (true, false) => Some("seed parent assumed first"),
        (true, true) => Some("seed parent first, in some of the crosses only assumed"),
        (false, _) => None,
    };
    let open = "open pollinated: the pollen parent is not known";
    let mixed = "mixed pollen: the pollen parents are not named";
    let all = [
        of.is_open.then_some(open),
        of.is_mixed.then_some(mixed),
        order,
    ];
    all.into_iter().flatten().collect()
}

/// What is written only because somebody asked for it.
fn asked_for(
    registry: &Registry,
    plant: PlantRow,
    options: &PassportOptions,
    accession: &mut Accession,
) {
    accession.fill("INSTCODE", options.institute.clone());
    if raised(registry, plant) == Raised::Here {
        accession.fill("BREDCODE", options.institute.clone());
        let grower = registry.settings.grower.as_deref();
        accession.fill("BREDNAME", grower.filter(|_| options.breeder));
    }
    let Some(founder) = registry.founder(plant) else {
        return;
    };
    if options.suppliers {
        accession.fill("DONORNAME", founder.from.as_deref());
        accession.fill("DONORNUMB", founder.supplier_code.as_deref());
        let foreign = founder.foreign.as_ref();
        let number = foreign.map(|of| format!(":{}/{}", of.registry, of.code));
        accession.fill("OTHERNUMB", number);
    }
    if let Some(locality) = founder.locality.as_deref().filter(|_| options.localities) {
        accession.remark("COLLSITE", &format!("claimed, not verified: {locality}"));
    }
}
