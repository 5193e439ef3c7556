//! Names that say no more than a species.

use crate::naming::{Formula, Leaf, Part, ReadOptions, Vocabulary, read};

/// The species that a label names, if it says no more than that.
pub(super) fn species_named(label: &str, vocabulary: &Vocabulary) -> Option<String> {
    let reading = read(label, vocabulary, ReadOptions::default());
    reading.formula.as_ref().and_then(bare_species)
}

/// Whether a name is no more than the species that another begins with, and so may be of the same plant.
pub(super) fn is_species_of(bare: &str, longer: &str, vocabulary: &Vocabulary) -> bool {
    let leaf = |label: &str| {
        let formula = read(label, vocabulary, ReadOptions::default()).formula?;
        match formula.part(formula.top()) {
            Part::Leaf(leaf) => leaf.sure_species().map(str::to_owned),
            _ => None,
        }
    };
    let species = species_named(bare, vocabulary);
    species.is_some() && species == leaf(longer)
}

/// The species that a name is, if it says no more than that.
fn bare_species(formula: &Formula) -> Option<String> {
    let top = formula.top();
    match formula.part(top) {
        Part::Leaf(leaf) if formula.marks(top).is_empty() => only_species(leaf),
        _ => None,
    }
}

fn only_species(leaf: &Leaf) -> Option<String> {
    match leaf {
        Leaf::Species {
            infraspecific: None,
            ..
        } => leaf.sure_species().map(str::to_owned),
        _ => None,
    }
}
