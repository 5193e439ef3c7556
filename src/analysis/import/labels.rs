//! Names on labels: those that cannot be read, several in one cell, and those that two suppliers use.

use super::answer::{ImportRow, Kind};
use super::index::folded;
use crate::naming::{NoteCode, ReadOptions, Vocabulary, read};
use std::collections::{BTreeMap, BTreeSet};

/// Suppliers by the name they use, with the first row of each.
pub(super) type Suppliers = BTreeMap<String, BTreeMap<String, usize>>;

pub(super) fn suppliers(rows: &[ImportRow]) -> Suppliers {
    let mut all = Suppliers::new();
    for (at, row) in rows.iter().enumerate() {
        let (Kind::Founder, Some(label), Some(from)) =
            (&row.kind, &row.facts.label, &row.facts.supplier)
        else {
            continue;
        };
        all.entry(folded(label))
            .or_default()
            .entry(folded(from))
            .or_insert(at);
    }
    all
}

/// Whether a label says more than the name of a species or cross: a clone's mark or an epithet in quotes.
pub(super) fn says_more(label: &str) -> bool {
    let quotes = ['"', '\'', '“', '”', '‘', '’', '#'];
    label.contains(quotes) || folded(label).split(' ').any(|word| word == "clone")
}

/// The names in a cell that may hold several.
pub(super) fn several(label: &str) -> Vec<String> {
    let marks = [" and ", " & ", " / ", "\n", "␊", ";"];
    let joined = marks.iter().fold(label.to_owned(), |label, mark| {
        label.replace(mark, "\u{1f}")
    });
    let pieces = joined.split('\u{1f}').map(|piece| piece.trim().to_owned());
    pieces.filter(|piece| !piece.is_empty()).collect()
}

/// Labels that were tried.
#[derive(Default)]
pub(super) struct Unread(BTreeSet<String>, BTreeSet<String>);

impl Unread {
    pub fn is_unread(&mut self, label: &str, vocabulary: &Vocabulary) -> bool {
        if self.0.contains(label) || self.1.contains(label) {
            return self.0.contains(label);
        }
        let reading = read(label, vocabulary, ReadOptions::default());
        let unlisted = reading
            .notes
            .iter()
            .any(|note| note.code == NoteCode::NameNotListed);
        let unread = reading.refused.is_some() || unlisted;
        let tried = if unread { &mut self.0 } else { &mut self.1 };
        tried.insert(label.to_owned());
        unread
    }
}
