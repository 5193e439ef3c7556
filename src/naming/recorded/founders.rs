//! What a founder is: by the latest opinion its grower accepted, else by the name it came with.

use super::labels::{NamesAlone, filial_note, unknown};
use crate::naming::vocabulary::Vocabulary;
use crate::naming::{Formula, Note, ReadOptions, Refusal, read};
use crate::record::{Confidence, FounderClone, Identification, NameAs, When};
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
    /// Whether the label is a later opinion, accepted, and not the name it came with.
    pub identified: bool,
    /// Whose opinion it is, in the words typed: "me", a role, or the name of another registry.
    pub by: Option<String>,
    /// What that opinion is based on, in the words typed.
    pub basis: Option<String>,
    /// Whether the label is the Latin name of a hybrid and no more: its parents hold if the name is right, and no
    /// generation is known.
    pub hybrid_name_alone: bool,
    /// The same of the plant and of its parents on the label.
    pub names_alone: NamesAlone,
    /// What was assumed of an F2 on the label.
    pub filial: Option<Note>,
    /// The name it came with, where that is read as something else.
    pub received: Option<String>,
    /// Why the label could not be read; its plant then counts as unknown.
    pub refused: Option<Refusal>,
}

/// Reads a founder's name.
///
/// # Panics
/// If the plant is not a founder.
pub fn founder_name(registry: &Registry, vocabulary: &Vocabulary, plant: PlantRow) -> FounderName {
    let founder = &registry.founders()[plant.index()];
    let opinion = accepted(registry, founder);
    let (label, confidence) = match opinion {
        Some(opinion) => (opinion.name.to_string(), opinion.confidence),
        None => (founder.received.to_string(), founder.confidence),
    };
    let reading = read(&label, vocabulary, ReadOptions::default());
    let alone = NamesAlone::of(&label, &reading, vocabulary);
    let (formula, refused) = match (reading.formula, reading.refused) {
        (Some(formula), None) => (formula, None),
        (_, refused) => (unknown(), refused),
    };
    let as_received = opinion.and_then(|_| {
        let first = read(&founder.received, vocabulary, ReadOptions::default());
        let same = first.formula.is_some_and(|first| first.same_as(&formula));
        (!same).then(|| founder.received.to_string())
    });
    FounderName {
        hybrid_name_alone: alone.whole,
        names_alone: alone,
        formula,
        label,
        confidence,
        identified: opinion.is_some(),
        by: opinion
            .and_then(|of| of.by.as_ref())
            .map(|of| of.to_string()),
        basis: opinion
            .and_then(|of| of.basis.as_ref())
            .map(|of| of.to_string()),
        filial: filial_note(reading.notes),
        received: as_received,
        refused,
    }
}

/// The opinion that changes the name shown: of the accepted ones the latest, and the one written last where their dates do not
/// say which is later. A visitor's word is kept and shown beside the name, not obeyed.
pub fn accepted<'f, 't>(
    registry: &Registry,
    founder: &'f FounderClone<'t>,
) -> Option<&'f Identification<'t>> {
    let mut last_first = founder.identified.iter().rev().filter(|of| of.accepted);
    let is_shown = |of: &&Identification| later(registry, founder, when(registry, of)).is_none();
    let shown = last_first.find(is_shown);
    shown.filter(|_| founder.name_as == NameAs::Accepted)
}

/// An accepted opinion that is known to be later than a date.
pub fn later<'f, 't>(
    registry: &Registry,
    founder: &'f FounderClone<'t>,
    than: When,
) -> Option<&'f Identification<'t>> {
    let mut accepted = founder.identified.iter().filter(|of| of.accepted);
    accepted.find(|of| than.surely_before(when(registry, of)))
}

fn when(registry: &Registry, of: &Identification) -> When {
    of.on.map_or(When::UNKNOWN, |on| registry.when(on))
}
