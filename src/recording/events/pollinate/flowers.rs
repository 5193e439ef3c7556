//! Whether the flowers that were dusted were open: the spike that was named, and the flowers on record.

use super::event::Pollinate;
use crate::record::When;
use crate::recording::in_flower::{InFlower, in_flower, no_spike, spike_named};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, day, flower, words};
use crate::registry::{PlantOrRamet, Registry};
use crate::wording::{at_date, days};

impl Pollinate {
    /// Refuses a spike that the plant, or the piece that is named, does not have.
    pub(super) fn known_spike(&self, registry: &Registry, seed: PlantOrRamet) -> Result<(), Slip> {
        let Some(spike) = &self.spike else {
            return Ok(());
        };
        spike_named(registry, seed, spike).map(|_| ())
    }

    /// Refuses a day on which the flowers on record were not open; says so when none are on record for it.
    pub(super) fn open_spike(
        &self,
        registry: &Registry,
        seed: PlantOrRamet,
        on: When,
    ) -> Result<Vec<Words>, Slip> {
        let plant = registry.code_of(seed);
        match in_flower(registry, seed, self.spike.as_deref(), on) {
            InFlower::Open => Ok(Vec::new()),
            InFlower::NotOnRecord => Ok(vec![no_spike(&plant)]),
            InFlower::Closed(recorded) => Err(Slip::contradicts(
                format!("{plant} was pollinated {}", at_date(&days(on))),
                recorded,
                words!(
                    "give the day with {}, or record the flowers first: {}";
                    day(), flower(&plant, " --opened DATE")
                ),
            )),
        }
    }
}
