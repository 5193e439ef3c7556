//! Whether what bears a spike or a zone of pods is gone: a plant, or the piece of it that bears them.

use super::pieces::awaits_roots;
use super::places::is_original;
use super::presence::{Presence, is_over, presence};
use crate::record::{Day, Fate, Flowering, Ramet, When};
use crate::registry::{PlantRow, Registry};

/// Flowers or pods of a plant.
#[derive(Clone, Copy)]
pub struct Borne<'a> {
    /// The plant.
    pub plant: PlantRow,
    /// The letter of the piece that bears them, if it was written down.
    pub piece: Option<&'a str>,
    /// When they were first seen: what was cut later does not bear them.
    pub seen: When,
}

impl<'a> Borne<'a> {
    /// A spike.
    pub fn spike(registry: &Registry, plant: PlantRow, spike: &Flowering<'a>) -> Self {
        let days = [spike.spike, spike.opened].into_iter().flatten();
        let days = days.map(|on| registry.when(on));
        Borne {
            plant,
            piece: spike.ramet,
            seen: days.min_by_key(|when| when.last).unwrap_or(When::UNKNOWN),
        }
    }

    /// What became by a day of what bears them; `None` while it may be here.
    pub fn ended<'r, 't>(self, registry: &'r Registry<'t>, day: Day) -> Option<&'r Fate<'t>> {
        let over = |fate: &'r Fate<'t>| is_over(registry, fate, day).then_some(fate);
        if let Some(whole) = registry.fate(self.plant).and_then(over) {
            return Some(whole);
        }
        let all = registry.ramets(self.plant);
        let mut bearing: Vec<&Ramet> = all
            .iter()
            .filter(|of| self.may_be_on(registry, of))
            .collect();
        if presence(registry, self.plant, day) != Presence::Here {
            bearing = all.iter().collect();
        } else if self.piece.is_none() && !all.iter().any(is_original) {
            // The plant itself stands here without being listed among its pieces.
            return None;
        }
        let ends = bearing
            .iter()
            .map(|piece| piece.fate.as_ref().and_then(over));
        let ends = ends.collect::<Option<Vec<&Fate>>>()?;
        ends.into_iter()
            .max_by_key(|fate| registry.when(fate.on()).last)
    }

    /// Whether they may be on a piece: on the one that is written down, else on any that is no cutting without roots and was
    /// not cut after they were seen.
    fn may_be_on(self, registry: &Registry, piece: &Ramet) -> bool {
        let cut = piece.cut.map_or(When::UNKNOWN, |on| registry.when(on));
        match self.piece {
            Some(named) => piece.code == named,
            None => !awaits_roots(piece) && !self.seen.surely_before(cut),
        }
    }
}
