//! How many rooted pieces of a plant are in the collection.

use super::presence::{Presence, ended, presence};
use crate::record::{Day, Fate};
use crate::registry::{PlantRow, Registry};

/// Rooted pieces that are here; a plant without recorded ramets is one piece.
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
