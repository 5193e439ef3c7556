//! Which rows were brought in before: the registry's notes hold their cells.

use super::source::{key, sources_in};
use crate::registry::Registry;
use std::collections::{BTreeMap, BTreeSet};

/// A table and the cells of a row.
type Key = (String, String);

/// Rows that are on record.
pub(super) struct SaidBefore {
    /// How often each, less those that rows were found for.
    left: BTreeMap<Key, usize>,
    /// Codes of the plants whose notes hold them.
    codes: Vec<(Key, String)>,
}

impl SaidBefore {
    /// Those of a registry.
    pub fn of(registry: &Registry) -> SaidBefore {
        let (mut left, mut codes) = (BTreeMap::<Key, usize>::new(), Vec::new());
        let mut note = |note: Option<&str>, code: &dyn Fn() -> String| {
            let sources = note.filter(|note| note.contains('{')).map(sources_in);
            for key in sources.unwrap_or_default().into_iter().filter_map(key) {
                codes.push((key.clone(), code()));
                *left.entry(key).or_default() += 1;
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
        let codes = self.missed();
        let codes = codes.map(|((table, _), code)| (table.clone(), code.clone()));
        codes.collect()
    }

    fn missed(&self) -> impl Iterator<Item = &(Key, String)> {
        let missed = |(key, _): &&(Key, String)| self.left.get(key) > Some(&0);
        self.codes.iter().filter(missed)
    }

    /// Rows on record for which no row was found, as they would be without their code; and that code.
    pub fn without_code(&self) -> BTreeMap<Key, &str> {
        let missed = self.missed().filter(|(_, code)| !code.is_empty());
        let cut = |((table, cells), code): &'_ (Key, String)| {
            let value = format!(": {code}");
            let rest: Vec<&str> = cells
                .split("; ")
                .filter(|cell| !cell.ends_with(&value))
                .collect();
            (table.clone(), rest.join("; "))
        };
        missed.map(|of| (cut(of), of.1.as_str())).collect()
    }

    /// Whether a row is on record; each record answers for one row.
    pub fn take(&mut self, source: &str) -> bool {
        let left = key(source).and_then(|key| self.left.get_mut(&key));
        let left = left.filter(|left| **left > 0);
        left.map(|left| *left -= 1).is_some()
    }
}
