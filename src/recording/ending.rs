//! What ends when a plant dies or leaves: the whole of it, or one of its pieces.

use super::page::{At, FieldChange, Within};
use super::slip::Slip;
use crate::observation::pieces::pieces_left;
use crate::registry::{PlantOrRamet, Registry};

/// The piece meant by the code of a plant, or the whole plant where no more than one piece of it is left. At a place it is
/// the piece that stands there.
///
/// # Errors
/// If several pieces are left and the place does not settle which one is meant.
pub fn one_ending(
    registry: &Registry,
    named: PlantOrRamet,
    place: Option<&str>,
    help: &'static str,
) -> Result<PlantOrRamet, Slip> {
    let left = pieces_left(registry, named.plant, None);
    if named.ramet.is_some() || left.len() < 2 {
        return Ok(named);
    }
    let there = place.map(|place| pieces_left(registry, named.plant, Some(place)));
    if let Some([(of, _)]) = there.as_deref() {
        return Ok(*of);
    }
    let choices = there.filter(|there| !there.is_empty()).unwrap_or(left);
    Err(Slip::Ambiguous {
        what: "piece",
        choices: choices
            .iter()
            .map(|(of, _)| registry.code_of(*of))
            .collect(),
        help,
    })
}

/// The changes that end a piece, or a plant with every piece of it that is left. The pieces get the bare fate; `whole` may
/// say more.
pub fn ended(
    registry: &Registry,
    named: PlantOrRamet,
    whole: &str,
    bare: &str,
) -> Vec<FieldChange> {
    let piece = |code: &str, fate: &str| {
        FieldChange::Within(Within {
            list: "ramets",
            at: At::Key("code", code.to_owned()),
            changes: vec![FieldChange::Set("fate", fate.to_owned())],
        })
    };
    if let Some(ramet) = registry.ramet(named) {
        return vec![piece(ramet.code, whole)];
    }
    let left = pieces_left(registry, named.plant, None);
    let pieces = left.iter().map(|(_, ramet)| piece(ramet.code, bare));
    std::iter::once(FieldChange::Set("fate", whole.to_owned()))
        .chain(pieces)
        .collect()
}
