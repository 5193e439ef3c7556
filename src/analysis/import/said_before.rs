//! Which rows were brought in before: the registry's notes hold their cells.

use super::source::{key, sources_in};
use crate::record::FounderClone;
use crate::registry::Registry;
use std::collections::BTreeMap;

/// Rows that are on record, and how often each.
pub(super) struct SaidBefore(BTreeMap<(String, String), usize>);

impl SaidBefore {
    /// Those of a registry.
    pub fn of(registry: &Registry) -> SaidBefore {
        let mut rows: BTreeMap<(String, String), usize> = BTreeMap::new();
        let mut note = |note: Option<&str>| {
            let sources = note.filter(|note| note.contains('{')).map(sources_in);
            for key in sources.unwrap_or_default().into_iter().filter_map(key) {
                *rows.entry(key).or_default() += 1;
            }
        };
        let of_founder = |of: &FounderClone| of.note.as_deref().map(str::to_owned);
        for founder in registry.founders() {
            note(of_founder(founder).as_deref());
        }
        for cross in &registry.crosses {
            note(cross.page.note.as_deref());
            for &plant in &cross.seedlings {
                let seedling = registry.seedling(plant);
                note(seedling.and_then(|of| of.note.as_deref()));
            }
        }
        SaidBefore(rows)
    }

    /// Whether a row is on record; each record answers for one row.
    pub fn take(&mut self, source: &str) -> bool {
        let left = key(source).and_then(|key| self.0.get_mut(&key));
        match left {
            Some(left) if *left > 0 => {
                *left -= 1;
                true
            }
            _ => false,
        }
    }
}
