//! Names on labels, and what they leave open: those that cannot be read, several in one cell, and those that two suppliers use.

use super::answer::{ImportRow, Kind, Who, Why};
use super::index::{Suppliers, folded};
use super::sorting::Sorting;
use crate::naming::{NoteCode, ReadOptions, Vocabulary, read};
use crate::record::{Choose, RowClass};
use std::collections::BTreeSet;

/// Which suppliers use which name, of founders.
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
fn says_more(label: &str) -> bool {
    let quotes = ['"', '\'', '“', '”', '‘', '’', '#'];
    label.contains(quotes) || folded(label).split(' ').any(|word| word == "clone")
}

/// The names in a cell that may hold several.
fn several(label: &str) -> Vec<String> {
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

impl Sorting<'_, '_> {
    /// A label that cannot be read: of several plants, or not readable at all.
    pub fn label_unread(&self, row: &mut ImportRow, label: &str) {
        let pieces = several(label);
        let are_several = pieces.len() > 1 && row.kind == Kind::Founder;
        if are_several && !pieces.iter().any(|piece| self.unread.contains(piece)) {
            self.doubt(row, RowClass::SeveralPlants, label, Why::Several);
            row.facts.labels = pieces;
        } else {
            self.doubt(row, RowClass::LabelUnread, label, Why::LabelUnread);
        }
    }

    /// A name that says more than a species and that two suppliers use.
    pub fn shared(&self, row: &mut ImportRow) {
        let (Kind::Founder, Some(label), Some(own)) =
            (&row.kind, row.facts.label.clone(), &row.facts.supplier)
        else {
            return;
        };
        let (name, own) = (folded(&label), folded(own));
        let Some(of_name) = self.suppliers.get(&name) else {
            return;
        };
        let supplier = |who: &Who| match who {
            Who::OnRecord(code) => {
                let founder = self.registry.founder(self.registry.plant(code)?)?;
                founder.from.as_deref().map(folded)
            }
            _ => None,
        };
        let recorded = self.index.labels.get(&name).into_iter().flatten();
        let mut all = recorded.filter_map(supplier).chain(of_name.keys().cloned());
        if !says_more(&label) || !all.any(|from| from != own) {
            return;
        }
        let chosen = self.doubt(row, RowClass::SharedName, &label, Why::NameOfTwo);
        let first = of_name.values().min().copied();
        if let (Choose::OnePlant, Some(first)) = (chosen, first)
            && self.rows[first].comes
        {
            row.kind = Kind::More(self.plant_of(first));
        }
    }
}
