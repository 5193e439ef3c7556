//! Do the pieces of a plant that has come to its end have an end too?

use super::context::{CheckContext, fate_words};
use crate::diagnostic::{Code, Finding};
use crate::observation::pieces::pieces_left;
use crate::observation::presence::is_over;
use crate::record::Fate;
use crate::registry::PlantRow;
use crate::wording::{counted, listed};

/// A plant with several pieces that died or left, while pieces of it have no end on record: perhaps it was one of them.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let registry = context.registry;
    let over = |fate: &&Fate| is_over(registry, fate, context.today);
    let Some(fate) = registry.fate(plant).filter(over) else {
        return Vec::new();
    };
    let left = pieces_left(registry, plant, None);
    if left.is_empty() || registry.ramets(plant).len() < 2 || matches!(fate, Fate::Elsewhere) {
        return Vec::new();
    }
    let Some(anchor) = context.anchor(plant) else {
        return Vec::new();
    };
    let code = registry.code(plant);
    let pieces: Vec<String> = left
        .iter()
        .map(|(piece, _)| registry.code_of(*piece))
        .collect();
    let (verb, on) = fate_words(fate);
    let finding = Finding::warning(
        Code("pieces-without-an-end"),
        format!(
            "{code} {verb}, and {} of it {} no end on record",
            counted(left.len(), "piece", "pieces"),
            if left.len() == 1 { "has" } else { "have" }
        ),
    )
    .at(context.field(anchor, "fate"))
    .found(format!(
        "{code} {verb} {on}; no fate of {}",
        listed(&pieces)
    ))
    .needed("a fate of each piece, if the whole plant is gone")
    .help("if it was one piece only, write the fate on that piece and take it off the plant");
    vec![finding]
}
