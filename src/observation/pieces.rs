//! Which pieces of a plant have no end on record, and how many are in the collection.

use super::places::is_in;
use super::pottings::latest_pot;
use super::presence::{Presence, ended, presence};
use crate::record::{Day, Fate, Made, Potting, Ramet};
use crate::registry::{PlantOrRamet, PlantRow, Registry};

/// The recorded pieces of a plant that have no fate of their own, at a place
/// only those that stand there.
pub fn pieces_left<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    place: Option<&str>,
) -> Vec<(PlantOrRamet, &'r Ramet<'t>)> {
    let left = registry.each_ramet(plant).filter(|(_, piece)| {
        let there = |asked| piece.place.as_deref().is_some_and(|at| is_in(at, asked));
        piece.fate.is_none() && place.is_none_or(there)
    });
    left.collect()
}

/// Whether a plant that is itself listed among its pieces came to an end, while others live: what is on record of its pot was
/// its own.
pub fn is_itself_gone(registry: &Registry, plant: PlantRow) -> bool {
    let pieces = registry.ramets(plant).iter();
    let is_original = |piece: &&Ramet| matches!(piece.made, Some(Made::Original) | None);
    let (originals, copies): (Vec<&Ramet>, Vec<&Ramet>) = pieces.partition(is_original);
    let lives = |of: &&Ramet| of.fate.is_none();
    !originals.is_empty() && !originals.iter().any(lives) && copies.iter().any(lives)
}

/// The one piece that is left of a plant that is itself listed among its pieces and came to an end.
pub fn only_copy_left<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
) -> Option<&'r Ramet<'t>> {
    let pieces = registry.ramets(plant).iter();
    let mut left = pieces.filter(|piece| piece.fate.is_none());
    let only = left.next()?;
    (left.next().is_none() && is_itself_gone(registry, plant)).then_some(only)
}

/// The last pot of a plant itself; where it came to an end, that of the one piece that is left.
pub fn pot_here<'r, 't>(registry: &'r Registry<'t>, plant: PlantRow) -> Option<&'r Potting<'t>> {
    match only_copy_left(registry, plant) {
        None if is_itself_gone(registry, plant) => None,
        piece => latest_pot(registry, plant, piece),
    }
}

/// Whether a piece was cut to root and is not on record as rooted.
pub fn awaits_roots(piece: &Ramet) -> bool {
    matches!(piece.made, Some(Made::Cutting | Made::Basal)) && piece.rooted.is_none()
}

/// Pieces that are here, on record as rooted or not; a plant without recorded ramets is one piece.
pub fn pieces_here(registry: &Registry, plant: PlantRow, today: Day) -> usize {
    if presence(registry, plant, today) != Presence::Here {
        return 0;
    }
    let ramets = registry.ramets(plant);
    let here = |fate: &Option<Fate>| {
        fate.as_ref()
            .and_then(|f| ended(registry, f, today))
            .is_none()
    };
    if ramets.is_empty() {
        1
    } else {
        ramets.iter().filter(|r| here(&r.fate)).count()
    }
}
