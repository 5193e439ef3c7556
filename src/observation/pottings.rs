//! The pots a plant has stood in, by their days: one that is entered late stands at the end of the page, not of the list.

use crate::record::{Day, Length, Potting};
use crate::registry::{PlantRow, Registry};
use std::cmp::Ordering;

/// The pots on record, the earliest first; of one day the wider is the later, since plants are potted on. Those without a
/// known day come before all others.
pub fn pots_in_order<'r, 't>(registry: &'r Registry<'t>, plant: PlantRow) -> Vec<&'r Potting<'t>> {
    let mut pots: Vec<&Potting> = registry.pots(plant).iter().collect();
    pots.sort_by(|a, b| order(registry, a, b));
    pots
}

/// The pot a plant can have stood in on a day: the last of those that can have begun by then.
pub fn last_pot<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    day: Day,
) -> Option<&'r Potting<'t>> {
    let pots = registry.pots(plant).iter();
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
