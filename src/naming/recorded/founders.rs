//! What a founder is: by the latest opinion its grower accepted, else by the name it came with.

use crate::naming::vocabulary::Vocabulary;
use crate::naming::{
    Formula, FormulaBuilder, Leaf, NoteCode, Part, ReadOptions, Refusal, Unknown, read,
};
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
    let expanded = reading
        .notes
        .iter()
        .any(|note| note.code == NoteCode::NameExpanded);
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
        hybrid_name_alone: expanded && is_one_name(&label, &formula, vocabulary),
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
        received: as_received,
        refused,
    }
}

/// Whether a formula is that of one hybrid name in a label, with no further cross.
fn is_one_name(label: &str, formula: &Formula, vocabulary: &Vocabulary) -> bool {
    let crosses = |of: &Formula| {
        let is_cross = |(_, part): &(_, &Part)| matches!(part, Part::Cross(_));
        of.parts().filter(is_cross).count()
    };
    let lower = label.to_lowercase();
    let words = lower.split(|letter: char| !letter.is_alphabetic() && letter != '-');
    let names = words
        .flat_map(|word| [Some(word), word.strip_prefix('x')])
        .flatten();
    let mut names = names.map(|name| vocabulary.accepted(name).unwrap_or(name));
    names.any(|name| {
        let alone = || read(&format!("×{name}"), vocabulary, ReadOptions::default()).formula;
        vocabulary.named_hybrid(name).is_some()
            && alone().is_some_and(|alone| crosses(&alone) == crosses(formula))
    })
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

/// The formula of a plant nothing is known of.
pub(super) fn unknown() -> Formula {
    let mut builder = FormulaBuilder::new();
    let leaf = builder.leaf(Leaf::Unknown(Unknown::NotRecorded));
    builder.finish(leaf)
}
