//! What a founder is, by the last opinion on record or by the name it came with.

use crate::naming::vocabulary::Vocabulary;
use crate::naming::{Formula, FormulaBuilder, Leaf, ReadOptions, Refusal, Unknown, read};
use crate::record::Confidence;
use crate::registry::{PlantRow, Registry};

/// A founder's name.
#[derive(Clone, Debug)]
pub struct FounderName {
    /// What it is.
    pub formula: Formula,
    /// The label the formula was read from.
    pub label: String,
    /// How the label is known.
    pub confidence: Confidence,
    /// Whether the label is a later opinion and not the name it came with.
    pub identified: bool,
    /// Why the label could not be read; its plant then counts as unknown.
    pub refused: Option<Refusal>,
}

/// Reads a founder's name.
///
/// # Panics
/// If the plant is not a founder.
pub fn founder_name(registry: &Registry, vocabulary: &Vocabulary, plant: PlantRow) -> FounderName {
    let founder = &registry.founders()[plant.index()];
    let opinion = founder.identified.last();
    let (label, confidence) = match opinion {
        Some(opinion) => (opinion.name.to_string(), opinion.confidence),
        None => (founder.received.to_string(), founder.confidence),
    };
    let reading = read(&label, vocabulary, ReadOptions::default());
    let (formula, refused) = match (reading.formula, reading.refused) {
        (Some(formula), None) => (formula, None),
        (_, refused) => (unknown(), refused),
    };
    FounderName {
        formula,
        label,
        confidence,
        identified: opinion.is_some(),
        refused,
    }
}

/// The formula of a plant nothing is known of.
pub(super) fn unknown() -> Formula {
    let mut builder = FormulaBuilder::new();
    let leaf = builder.leaf(Leaf::Unknown(Unknown::NotRecorded));
    builder.finish(leaf)
}
