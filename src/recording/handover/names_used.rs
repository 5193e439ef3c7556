//! Names that labels of a lineage bear, as rows of `species.ron`: epithets, other spellings and short codes, without remarks.

use super::names::NamesOfLineage;
use crate::record::{NamedHybrid, Species};
use crate::recording::written::{RonRecord, texts};
use crate::registry::Registry;

/// A row.
pub(super) struct NameUsed<'r> {
    /// The list of `species.ron` it stands in.
    pub list: &'static str,
    /// The name, spelling or code it is about.
    pub name: &'r str,
    /// What it says.
    pub record: RonRecord,
}

/// The rows that labels of the lineage are read by, in the order of the page.
pub(super) fn names_used<'r>(registry: &'r Registry, names: &NamesOfLineage) -> Vec<NameUsed<'r>> {
    let taxa = &registry.taxa;
    let row = |list, name, record| NameUsed { list, name, record };
    let species = taxa.species.iter();
    let mut rows: Vec<NameUsed> = species
        .map(|of| row("species", of.epithet, species_row(of)))
        .collect();
    let hybrids = taxa.named_hybrids.iter();
    rows.extend(hybrids.map(|of| row("named_hybrids", of.epithet, hybrid_row(of))));
    rows.extend(taxa.synonyms.iter().map(|of| {
        let record = RonRecord::new().text("name", of.name).text("now", of.now);
        row("synonyms", of.name, record)
    }));
    rows.extend(taxa.codes.iter().map(|of| {
        let record = RonRecord::new().text("code", of.code);
        row("codes", of.code, record.text("means", of.means))
    }));
    rows.retain(|row| names.has(row.name));
    rows
}

fn species_row(of: &Species) -> RonRecord {
    let varieties = (!of.varieties.is_empty()).then(|| texts(of.varieties.iter()));
    RonRecord::new()
        .text("epithet", of.epithet)
        .value_if("varieties", varieties)
        .value_if("doubtful", of.doubtful.then_some("true"))
        // Printed with every answer about the species, so it is one of the facts.
        .text_if("doubt", of.doubt.as_deref())
        .value_if(
            "background_kinship",
            of.background_kinship.map(|kinship| format!("{kinship:?}")),
        )
}

fn hybrid_row(of: &NamedHybrid) -> RonRecord {
    RonRecord::new()
        .text("epithet", of.epithet)
        .value("parents", texts(of.parents.iter()))
        .text("status", &of.status)
        .value("expand", of.expand)
        .value("may_be_used", of.may_be_used)
}
