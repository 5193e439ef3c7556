//! Whether flowers of a spike were dusted, or gave pollen, after the day on which it is to be over.
//!
//! What names the spike is held against it by `check`. What names none was done on the one spike that was open.

use super::event::Flower;
use crate::observation::parent_of::mother;
use crate::record::PollenSource;
use crate::recording::dates::Dated;
use crate::recording::in_flower::is_the_only_open;
use crate::recording::slip::Slip;
use crate::recording::voice::{flower, words};
use crate::registry::{PlantOrRamet, Registry, Target};
use crate::wording::at_date;

impl Flower {
    /// Refuses an end before a day on which no other spike on record was open, and flowers were dusted or gave pollen.
    pub(super) fn not_used_later(
        &self,
        registry: &Registry,
        (plant, at): (PlantOrRamet, usize),
        over: &Dated,
    ) -> Result<(), Slip> {
        let mut used = dusted(registry).chain(collected(registry));
        let later = used.find(|used| {
            let on = registry.when(used.on);
            used.of.plant == plant.plant
                && on.is_bounded()
                && over.when.surely_before(on)
                && is_the_only_open(registry, used.of, at, on)
        });
        let Some(Used { of, what, on }) = later else {
            return Ok(());
        };
        let code = registry.code_of(of);
        Err(Slip::contradicts(
            format!(
                "flowers of {} were over {}",
                self.plant,
                at_date(&over.text)
            ),
            format!(
                "{what} {}, when no other spike of {code} was open",
                at_date(on)
            ),
            words!(
                "look at the day; or record the other spike first: {}";
                flower(&code, " --opened DATE")
            ),
        ))
    }
}

/// Flowers that were open on a day, by what was done with them.
struct Used<'r> {
    of: PlantOrRamet,
    what: String,
    on: &'r str,
}

/// The zones that name no spike.
fn dusted<'r>(registry: &'r Registry) -> impl Iterator<Item = Used<'r>> {
    registry.own_crosses().flat_map(move |(_, cross)| {
        let zones = cross.page.pollinations.iter();
        let zones = zones.filter(|zone| zone.spike.is_none());
        zones.flat_map(move |zone| {
            let used = move |of| {
                zone.on.iter().map(move |on| Used {
                    of,
                    what: format!("{}.{} was pollinated", cross.page.code, zone.zone),
                    on,
                })
            };
            mother(registry, cross, zone).into_iter().flat_map(used)
        })
    })
}

/// The pollen of one plant that was collected.
fn collected<'r>(registry: &'r Registry) -> impl Iterator<Item = Used<'r>> {
    let own = registry.pollen.iter().filter(|lot| lot.told_by.is_none());
    own.filter_map(|lot| {
        let PollenSource::Plant(from) = &lot.from else {
            return None;
        };
        Some(Used {
            of: registry.target(from).and_then(Target::plant_or_ramet)?,
            what: format!("the pollen of {} was collected", lot.code),
            on: lot.collected?,
        })
    })
}
