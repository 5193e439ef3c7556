//! The pots a plant has stood in, by their days: one that is entered late stands at the end of the page, not of the list.

use crate::record::{Day, Potting};
use crate::registry::{PlantRow, Registry};

/// The pots on record, the earliest first; of one day in the order of the page, and before all those without a known day.
pub fn pots_in_order<'r, 't>(registry: &'r Registry<'t>, plant: PlantRow) -> Vec<&'r Potting<'t>> {
    let mut pots: Vec<&Potting> = registry.pots(plant).iter().collect();
    pots.sort_by_key(|pot| registry.when(pot.on).first);
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
    by_then.max_by_key(|pot| registry.when(pot.on).first)
}
