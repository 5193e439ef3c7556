//! Which plants and crosses there are, on record and in the tables, by their codes and names.

use super::answer::{ImportRow, Kind, Who};
use crate::registry::Registry;
use std::collections::{BTreeMap, BTreeSet};

/// Suppliers by the name they use, with the first row of each.
pub(super) type Suppliers = BTreeMap<String, BTreeMap<String, usize>>;

/// Rows by the code that they define.
pub(super) type Codes = BTreeMap<String, usize>;

/// The rows of the tables by what they define, and the registry's plants by their names.
#[derive(Default)]
pub(super) struct Index {
    /// Rows of plants by their code; the first of one code.
    pub codes: Codes,
    /// Rows of crosses by their code; the first of one code.
    pub crosses: Codes,
    /// Rows of seed that came, by their code; the first of one code.
    pub seeds: Codes,
    /// Plants by their label, folded.
    pub labels: BTreeMap<String, Vec<Who>>,
    /// Codes in small letters, with the first that is written so: of founders and crosses on record, then of rows.
    capitals: BTreeMap<String, String>,
    /// Plants on record by their nickname.
    nicknames: BTreeMap<String, String>,
    /// Codes that two plants have, or a plant and a cross: whom such a code names is not known.
    pub of_two: BTreeSet<String>,
    /// Further rows of the plant of a row, and rows that come about the seed of a cross, as far as they are sorted.
    pub further: BTreeMap<usize, Vec<usize>>,
    pub of_seed: BTreeMap<String, Vec<usize>>,
    /// Tables and codes of rows that were brought in and are there no more, as they were.
    pub edited: BTreeSet<(String, String)>,
}

impl Index {
    /// What is on record.
    pub fn of(registry: &Registry) -> Index {
        let mut index = Index::default();
        for plant in registry.plants() {
            if let Some(name) = registry.nickname(plant) {
                let code = registry.code(plant);
                index.nicknames.entry(name.to_owned()).or_insert(code);
            }
        }
        for cross in &registry.crosses {
            index.write_down(cross.page.code);
        }
        for founder in registry.founders() {
            index.write_down(founder.code);
            let who = Who::OnRecord(founder.code.to_owned());
            let of_label = index.labels.entry(folded(&founder.received));
            of_label.or_default().push(who);
        }
        index
    }

    /// Notes what a row that is sorted says more about.
    pub fn note(&mut self, at: usize, row: &ImportRow) {
        match &row.kind {
            Kind::More(Who::Row(first)) => self.further.entry(*first).or_default().push(at),
            Kind::SeedOf(cross) if row.comes => {
                self.of_seed.entry(cross.clone()).or_default().push(at);
            }
            _ => {}
        }
    }

    /// Notes a code, with its capitals.
    pub fn write_down(&mut self, code: &str) {
        let first = self.capitals.entry(code.to_lowercase());
        first.or_insert_with(|| code.to_owned());
    }

    /// The code before this one that differs from it only in capitals: pages named so would be one file on many disks.
    pub fn in_other_capitals(&self, code: &str) -> Option<&str> {
        let first = self.capitals.get(&code.to_lowercase())?;
        (first != code).then_some(first.as_str())
    }

    /// The code of the plant on record with a nickname.
    pub fn nicknamed(&self, name: &str) -> Option<&str> {
        self.nicknames.get(name).map(String::as_str)
    }
}

/// The code by which other rows name the plant of a row: with that of its cross where it is a seedling's number.
pub(super) fn code_of(row: &ImportRow) -> Option<String> {
    match &row.kind {
        Kind::Seedling {
            cross,
            number: Some(number),
        } => Some(format!("{cross}-{number}")),
        Kind::Founder | Kind::Seedling { .. } | Kind::SeedlingOf(_) => row.facts.code.clone(),
        _ => None,
    }
}

/// A name without capitals, genus and further blanks; `x`, `X` and `×` are one sign.
pub(super) fn folded(name: &str) -> String {
    let lower = name.to_lowercase().replace('×', " x ");
    let words: Vec<&str> = lower.split_whitespace().collect();
    let genus = ["nepenthes", "nep.", "nep", "n."];
    match words.split_first() {
        Some((first, rest)) if genus.contains(first) && !rest.is_empty() => rest.join(" "),
        _ => words.join(" "),
    }
}
