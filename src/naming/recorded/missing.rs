//! Names that a label uses and a registry's list lacks, where the starter list knows them.

use super::words::{vocabulary, vocabulary_with};
use crate::naming::vocabulary::{NamedHybridRow, SpeciesRow, Vocabulary, VocabularyRows};
use crate::naming::{NoteCode, ReadOptions, Refusal, read, starter_rows};
use crate::registry::Registry;
use std::collections::BTreeSet;

/// Epithets of the starter list, in the order in which a label uses them.
#[derive(Clone, PartialEq, Eq, Default, Debug)]
pub struct MissingNames {
    /// Species, those of the parents of named hybrids included.
    pub species: Vec<String>,
    /// Named hybrids.
    pub named_hybrids: Vec<String>,
}

impl MissingNames {
    fn of(rows: &VocabularyRows) -> MissingNames {
        let hybrids = rows.named_hybrids.iter();
        MissingNames {
            species: rows.species.iter().map(|row| row.epithet.clone()).collect(),
            named_hybrids: hybrids.map(|row| row.epithet.clone()).collect(),
        }
    }

    /// Whether the label needs no name of the starter list.
    pub fn is_empty(&self) -> bool {
        self.species.is_empty() && self.named_hybrids.is_empty()
    }
}

/// Why a label cannot be read with the names of a registry; `None` where it can be.
pub fn unreadable(registry: &Registry, label: &str) -> Option<Refusal> {
    let own = vocabulary(registry);
    read(label, &own, ReadOptions::default()).refused
}

/// The names of the starter list with which a label can be read; none where it can be read without, or not even so.
pub fn missing_names(registry: &Registry, label: &str) -> MissingNames {
    let own = vocabulary(registry);
    if is_read(label, &own) {
        return MissingNames::default();
    }
    let mut more = VocabularyRows::default();
    add_rows_of(label, &own, &starter_rows(), &mut more);
    let missing = MissingNames::of(&more);
    let with_them = vocabulary_with(registry, more);
    match is_read(label, &with_them) {
        true => missing,
        false => MissingNames::default(),
    }
}

/// The words with which many labels are read: those of the registry, and names of the starter list that a label needs and
/// can be read with; and which names these are.
pub fn words_for<'l>(
    registry: &Registry,
    labels: impl Iterator<Item = &'l str>,
) -> (Vocabulary, MissingNames) {
    let own = vocabulary(registry);
    let starter = starter_rows();
    let different: BTreeSet<&str> = labels.collect();
    let unread = different.into_iter().filter(|label| !is_read(label, &own));
    let unread: Vec<&str> = unread.collect();
    let rows = |labels: &[&str]| {
        let mut more = VocabularyRows::default();
        for label in labels {
            add_rows_of(label, &own, &starter, &mut more);
        }
        more
    };
    let with_all = vocabulary_with(registry, rows(&unread));
    let helped = unread.into_iter().filter(|label| is_read(label, &with_all));
    let more = rows(&helped.collect::<Vec<_>>());
    let missing = MissingNames::of(&more);
    (vocabulary_with(registry, more), missing)
}

/// Whether every name on a label is known.
fn is_read(label: &str, vocabulary: &Vocabulary) -> bool {
    let reading = read(label, vocabulary, ReadOptions::default());
    let unlisted = |note: &crate::naming::Note| note.code == NoteCode::NameNotListed;
    reading.refused.is_none() && !reading.notes.iter().any(unlisted)
}

/// Adds the rows of the starter list that a label names and a vocabulary lacks.
fn add_rows_of(label: &str, own: &Vocabulary, starter: &VocabularyRows, more: &mut VocabularyRows) {
    let lower = label.to_lowercase();
    let words = lower.split(|c: char| !(c.is_alphabetic() || c == '-'));
    let words = words.flat_map(|word| [Some(word), word.strip_prefix('x')]);
    for word in words.flatten() {
        let synonym = starter.synonyms.iter().find(|row| row.synonym == word);
        let word = synonym.map_or(word, |row| row.accepted.as_str());
        add_species(starter, own, word, &mut more.species);
        if let Some(hybrid) = starter.named_hybrids.iter().find(|row| row.epithet == word) {
            add_hybrid(own, hybrid, &mut more.named_hybrids);
            for parent in &hybrid.parent_set {
                add_species(starter, own, parent, &mut more.species);
            }
        }
    }
}

fn add_species(from: &VocabularyRows, own: &Vocabulary, epithet: &str, to: &mut Vec<SpeciesRow>) {
    let known = own.species(epithet).is_some() || to.iter().any(|row| row.epithet == epithet);
    let listed = from.species.iter().find(|row| row.epithet == epithet);
    to.extend(listed.filter(|_| !known).cloned());
}

fn add_hybrid(own: &Vocabulary, row: &NamedHybridRow, to: &mut Vec<NamedHybridRow>) {
    let epithet = row.epithet.as_str();
    let known = own.named_hybrid(epithet).is_some() || to.iter().any(|of| of.epithet == epithet);
    to.extend((!known).then(|| row.clone()));
}
