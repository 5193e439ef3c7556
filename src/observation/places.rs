//! Where a plant and its pieces stand, and which plants stand in a place.

use crate::record::Day;
use crate::registry::{PlantRow, Registry};

/// The places of a plant by a day, each once: its own and those of its pieces; where there are none, that of its last pot.
pub fn places<'r>(registry: &'r Registry, plant: PlantRow, today: Day) -> Vec<&'r str> {
    let own = registry.seedling(plant).and_then(|of| of.place.as_deref());
    let pots = registry.pots(plant).iter();
    let by_today = pots.filter(|pot| registry.when(pot.on).first <= today);
    let pot = by_today.max_by_key(|pot| registry.when(pot.on).first);
    let pieces = registry.ramets(plant).iter();
    let pieces = pieces.filter(|piece| piece.fate.is_none());
    let mut places: Vec<&str> = own.into_iter().collect();
    for place in pieces.filter_map(|piece| piece.place.as_deref()) {
        if !places.contains(&place) {
            places.push(place);
        }
    }
    // A move leaves the record of the last pot as it was.
    if places.is_empty() {
        places.extend(pot.and_then(|pot| pot.place.as_deref()));
    }
    places
}

/// The one place written beside a plant: its own note, else that of the last of its pots on record, whatever the day.
pub fn place_noted<'r>(registry: &'r Registry, plant: PlantRow) -> Option<&'r str> {
    let own = registry.seedling(plant).and_then(|of| of.place.as_deref());
    let pot = registry.pots(plant).last();
    own.or(pot.and_then(|pot| pot.place.as_deref()))
}

/// Whether a place is the one asked for or a part of it: `shelf 1, front` is in `shelf 1`, `shelf 10` is not.
pub fn is_in(place: &str, asked: &str) -> bool {
    let (place, asked) = (place.trim().to_lowercase(), asked.trim().to_lowercase());
    let rest = place.strip_prefix(&asked);
    rest.is_some_and(|rest| !rest.starts_with(|c: char| c.is_alphanumeric()))
}
