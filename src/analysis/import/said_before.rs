//! Which rows were brought in before: the registry's notes hold their cells.

use super::answer::ImportRow;
use super::lost_rows::{LostRow, LostRows};
use super::source::{key, sources_in};
use crate::registry::Registry;
use std::collections::{BTreeMap, BTreeSet};

/// A table and the cells of a row.
type Key = (String, String);

/// Rows that are on record.
pub(super) struct SaidBefore<'r> {
    /// How often each, less those that rows were found for.
    left: BTreeMap<Key, usize>,
    /// Their words with the codes of the plants whose notes hold them.
    codes: Vec<(&'r str, String)>,
}

impl<'r> SaidBefore<'r> {
    /// Those of a registry.
    pub fn of(registry: &'r Registry) -> SaidBefore<'r> {
        let (mut left, mut codes) = (BTreeMap::<Key, usize>::new(), Vec::new());
        let mut note = |note: Option<&'r str>, code: &dyn Fn() -> String| {
            let sources = note.filter(|note| note.contains('{')).map(sources_in);
            for source in sources.unwrap_or_default() {
                if let Some(key) = key(source) {
                    codes.push((source, code()));
                    *left.entry(key).or_default() += 1;
                }
            }
        };
        for founder in registry.founders() {
            note(founder.note.as_deref(), &|| founder.code.to_owned());
        }
        for cross in &registry.crosses {
            let code = || cross.page.code.to_owned();
            note(cross.page.note.as_deref(), &code);
            // Rows about seed of a cross that is known are kept with its sowings; without a code none looks like theirs.
            for sowing in &cross.page.sowings {
                note(sowing.note.as_deref(), &String::new);
            }
            for &plant in &cross.seedlings {
                let seedling = registry.seedling(plant);
                let note_of = seedling.and_then(|of| of.note.as_deref());
                let nickname = seedling.and_then(|of| of.nickname.as_deref());
                let code = || nickname.map_or_else(|| registry.code(plant), str::to_owned);
                note(note_of, &code);
            }
        }
        SaidBefore { left, codes }
    }

    /// Tables and codes of plants on record for which no row was found: a row with the same code is theirs, edited.
    pub fn edited(&self) -> BTreeSet<(String, String)> {
        let codes = self
            .missed()
            .filter_map(|(source, code)| Some((key(source)?.0, code.clone())));
        codes.collect()
    }

    fn missed(&self) -> impl Iterator<Item = &(&'r str, String)> {
        let is_left = |source| key(source).is_some_and(|key| self.left.get(&key) > Some(&0));
        self.codes.iter().filter(move |(source, _)| is_left(source))
    }

    /// Rows on record for which no row was found, neither by its cells nor by its code.
    pub fn lost<'s>(&'s self, rows: &[ImportRow]) -> LostRows<'s> {
        let coded: BTreeSet<String> = rows.iter().flat_map(|row| row.facts.codes_in()).collect();
        let missed = self.missed();
        let lost = missed.filter(|(_, code)| !code.is_empty() && !coded.contains(code));
        let lost = lost.filter_map(|(source, code)| LostRow::of(source, code));
        LostRows::of(lost.collect())
    }

    /// Whether a row is on record; each record answers for one row.
    pub fn take(&mut self, source: &str) -> bool {
        let left = key(source).and_then(|key| self.left.get_mut(&key));
        let left = left.filter(|left| **left > 0);
        left.map(|left| *left -= 1).is_some()
    }
}
