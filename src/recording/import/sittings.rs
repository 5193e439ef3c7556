//! Readings that come in, as sittings: one for each page and day.

use crate::analysis::import::RowFacts;
use crate::recording::written::{RonRecord, lines, text, texts};
use crate::registry::{Registry, TraitRow};
use std::collections::{BTreeMap, BTreeSet};

/// The readings of one page, by day; a plant that is read twice on a day has a second sitting.
#[derive(Default)]
pub(super) struct Sittings(BTreeMap<(String, usize), Sitting>);

#[derive(Default)]
struct Sitting {
    traits: BTreeSet<TraitRow>,
    plants: BTreeSet<String>,
    /// The first cell of each row, and its cells by trait.
    rows: Vec<(String, BTreeMap<TraitRow, String>)>,
}

impl Sittings {
    /// Adds what a row read on a plant, which stands in the first cell; the number of readings.
    pub fn add(&mut self, first: &str, facts: &RowFacts) -> usize {
        let mut days: BTreeMap<&str, BTreeMap<TraitRow, String>> = BTreeMap::new();
        for reading in &facts.readings {
            let on = reading.on.as_deref().or(facts.measured.as_deref());
            let cells = days.entry(on.unwrap_or("?")).or_default();
            cells
                .entry(reading.of)
                .or_insert_with(|| reading.cell.clone());
        }
        let read = days
            .into_iter()
            .map(|(on, cells)| self.day(first, on.to_owned(), cells));
        read.sum()
    }

    /// Adds the cells of one day.
    fn day(&mut self, first: &str, on: String, cells: BTreeMap<TraitRow, String>) -> usize {
        let is_read = |at: usize| {
            let there = self.0.get(&(on.clone(), at));
            there.is_some_and(|sitting| sitting.plants.contains(first))
        };
        let at = (0..).find(|&at| !is_read(at)).unwrap_or(0);
        let sitting = self.0.entry((on, at)).or_default();
        let count = cells.len();
        sitting.traits.extend(cells.keys());
        sitting.plants.insert(first.to_owned());
        sitting.rows.push((first.to_owned(), cells));
        count
    }

    /// The sittings as records.
    pub fn records(&self, registry: &Registry) -> Vec<String> {
        let record = |((on, _), sitting): (&(String, usize), &Sitting)| {
            let code = |of: &TraitRow| registry[*of].code;
            let row = |(first, cells): &(String, BTreeMap<TraitRow, String>)| {
                let cell = |of: &TraitRow| cells.get(of).map_or("", String::as_str);
                let cells = sitting.traits.iter().map(cell);
                texts(std::iter::once(first.as_str()).chain(cells))
            };
            let rows: Vec<String> = sitting.rows.iter().map(row).collect();
            RonRecord::new()
                .value("on", text(on))
                .value("columns", texts(sitting.traits.iter().map(code)))
                .value("rows", lines(&rows))
                .line()
        };
        self.0.iter().map(record).collect()
    }
}
