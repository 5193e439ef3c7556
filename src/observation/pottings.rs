//! The pots a plant or a piece of it has stood in, by their days: one that is entered late stands at the end of the page, not of
//! the list.
//!
//! The pots on record for a plant are those of the plant itself; a piece taken off it has its own.

use crate::record::{Day, Length, Made, Potting, Ramet};
use crate::registry::{PlantRow, Registry};
use std::cmp::Ordering;

/// The pots on record of a plant itself, the earliest first; of one day the wider is the later, since plants are potted on. Those
/// without a known day come before all others.
pub fn pots_in_order<'r, 't>(registry: &'r Registry<'t>, plant: PlantRow) -> Vec<&'r Potting<'t>> {
    in_order(registry, pots_of(registry, plant, None))
}

/// The pot on record as the last of a plant itself, or of a piece of it.
pub fn latest_pot<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    piece: Option<&'r Ramet<'t>>,
) -> Option<&'r Potting<'t>> {
    in_order(registry, pots_of(registry, plant, piece)).pop()
}

/// The pot a plant itself can have stood in on a day: the last of those that can have begun by then.
pub fn last_pot<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    day: Day,
) -> Option<&'r Potting<'t>> {
    last_pot_of(registry, (plant, None), day)
}

/// The same of a piece of it, where one is named.
pub fn last_pot_of<'r, 't>(
    registry: &'r Registry<'t>,
    (plant, piece): (PlantRow, Option<&'r Ramet<'t>>),
    day: Day,
) -> Option<&'r Potting<'t>> {
    let pots = pots_of(registry, plant, piece).into_iter();
    let by_then = pots.filter(|pot| registry.when(pot.on).first <= day);
    by_then.max_by(|a, b| order(registry, a, b))
}

/// By day, width and place: never by the order in which they are written.
fn order(registry: &Registry, one: &Potting, other: &Potting) -> Ordering {
    let days = |of: &Potting| registry.when(of.on);
    let width = |of: &Potting| Length::read(&of.pot).ok().and_then(Length::cm);
    let width = |of: &Potting| width(of).unwrap_or(0.0);
    (days(one).cmp(&days(other)))
        .then_with(|| width(one).total_cmp(&width(other)))
        .then_with(|| one.place.as_deref().cmp(&other.place.as_deref()))
}

/// The pots of a plant itself, or of a piece of it, as they stand on the page.
pub fn pots_of<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    piece: Option<&'r Ramet<'t>>,
) -> Vec<&'r Potting<'t>> {
    let is_itself = piece.is_none_or(|of| matches!(of.made, Some(Made::Original) | None));
    let of_plant = registry.pots(plant).iter().filter(|_| is_itself);
    let own = piece.into_iter().flat_map(|piece| piece.pots.iter());
    of_plant.chain(own).collect()
}

fn in_order<'r, 't>(registry: &Registry, mut pots: Vec<&'r Potting<'t>>) -> Vec<&'r Potting<'t>> {
    pots.sort_by(|a, b| order(registry, a, b));
    pots
}
