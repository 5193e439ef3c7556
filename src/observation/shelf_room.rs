//! How much of a shelf a plant takes, by the size of its pot.

use super::pottings::last_pot_of;
use crate::lineage::PlantRow;
use crate::record::{Day, Length, Ramet, Shelf};
use crate::registry::Registry;

/// How many square pots of a width stand on one shelf, in rows and columns: 484 of 5 cm on 110 × 110 cm.
pub fn pots_on_shelf(shelf: &Shelf, pot_cm: f64) -> u64 {
    pots_on((shelf.width_cm, shelf.depth_cm), pot_cm)
}

/// The same for a shelf of a width and a depth, cm.
pub fn pots_on((width_cm, depth_cm): (f64, f64), pot_cm: f64) -> u64 {
    let rows = |length: f64| libm::floor(length / pot_cm + 1e-9).max(0.0) as u64;
    if pot_cm > 0.0 {
        rows(width_cm).saturating_mul(rows(depth_cm))
    } else {
        0
    }
}

/// Width of the pot a plant itself stands in by today, or a piece of it, cm; `None` when not on record or without a unit.
pub fn pot_cm(
    registry: &Registry,
    (plant, piece): (PlantRow, Option<&Ramet>),
    today: Day,
) -> Option<f64> {
    let pot = last_pot_of(registry, (plant, piece), today)?;
    Length::read(&pot.pot).ok()?.cm()
}

/// The part of one shelf a plant takes; `None` when its pot is not known or does not fit.
pub fn room(registry: &Registry, plant: PlantRow, shelf: &Shelf, today: Day) -> Option<f64> {
    let pot = pot_cm(registry, (plant, None), today).or(shelf.pot_cm)?;
    match pots_on_shelf(shelf, pot) {
        0 => None,
        pots => Some(1.0 / pots as f64),
    }
}
