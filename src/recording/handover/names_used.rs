//! Names that labels of a lineage bear, as rows of `species.ron`: epithets, other spellings and short codes, without remarks.

use super::names::NamesOfLineage;
use crate::record::{CheckedEpithet, NamedHybrid, Species};
use crate::recording::written::{RonRecord, texts};
use crate::registry::Registry;

/// The lists of `species.ron`, each with the field that says what a row is about, in the order of the page.
pub const LISTS: [(&str, &str); 5] = [
    ("species", "epithet"),
    ("named_hybrids", "epithet"),
    ("synonyms", "name"),
    ("codes", "code"),
    ("epithets", "epithet"),
];

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
        .map(|of| row("species", of.epithet, species_row(of, names)))
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
    let epithets = taxa.epithets.iter();
    rows.extend(epithets.map(|of| row("epithets", &*of.epithet, epithet_row(of))));
    let kept = kept_unused(&rows, names);
    rows.retain(|row| names.has(row.name) || Some(row.name) == kept);
    rows
}

/// A name that is kept where no other is used: a page without any would be read by the list podbook brings along, and the
/// labels by names that their grower does not have.
fn kept_unused<'r>(rows: &[NameUsed<'r>], names: &NamesOfLineage) -> Option<&'r str> {
    let listed = |row: &&NameUsed| matches!(row.list, "species" | "named_hybrids");
    let mut of_list = rows.iter().filter(listed);
    let first = of_list.next()?;
    let is_used = names.has(first.name) || of_list.any(|row| names.has(row.name));
    (!is_used).then_some(first.name)
}

fn species_row(of: &Species, names: &NamesOfLineage) -> RonRecord {
    // A label that cites the authors of a name is read by them.
    let is_cited = |authors: &&str| {
        let mut words = authors.split(|c: char| !c.is_alphabetic());
        words.any(|word| word.chars().count() > 2 && names.has(word))
    };
    let authors = of.authors.as_deref().filter(is_cited);
    let varieties = (!of.varieties.is_empty()).then(|| texts(of.varieties.iter()));
    RonRecord::new()
        .text("epithet", of.epithet)
        .value_if("varieties", varieties)
        .text_if("authors", authors)
        .value_if("year", authors.and(of.year))
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
        .text_if("formula", of.formula.as_deref())
        .text_if("origin", of.origin.as_deref())
        .text("status", &of.status)
        .value("expand", of.expand)
        .value("may_be_used", of.may_be_used)
}

fn epithet_row(of: &CheckedEpithet) -> RonRecord {
    RonRecord::new()
        .text("epithet", &of.epithet)
        .text("source", &of.source)
        .text_if("formula", of.formula.as_deref())
}
