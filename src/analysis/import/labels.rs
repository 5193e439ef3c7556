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

/// The labels of rows that cannot be read, and those of the names in them, where they are several.
pub(super) fn unread(rows: &[ImportRow], vocabulary: &Vocabulary) -> BTreeSet<String> {
    let labels = rows.iter().filter_map(|row| row.facts.label.as_deref());
    let all = labels.flat_map(|label| several(label).into_iter().chain([label.to_owned()]));
    let mut different: BTreeSet<String> = all.collect();
    different.retain(|label| is_unread(label, vocabulary));
    different
}

fn is_unread(label: &str, vocabulary: &Vocabulary) -> bool {
    let reading = read(label, vocabulary, ReadOptions::default());
    let mut notes = reading.notes.iter();
    let is_unlisted = notes.any(|note| note.code == NoteCode::NameNotListed);
    reading.refused.is_some() || is_unlisted
}
