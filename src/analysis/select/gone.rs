//! Siblings that are no longer here, with what was read of them beside those that are: a choice is seen among all.

use crate::analysis::select::ages::OfSowing;
use crate::analysis::select::answer::SelectGone;
use crate::analysis::select::numbered::page_number;
use crate::analysis::select::rules::Counted;
use crate::lineage::PlantRow;
use crate::observation::presence::{Presence, presence};
use crate::observation::scope::Scope;
use crate::observation::series::{Comparable, readings_of_traits};
use crate::observation::standing::{fate_and_day, fate_words};
use crate::record::{Day, PitcherType, When};
use crate::registry::{Registry, SowingRow};
use std::collections::BTreeMap;

/// The plants of a scope that died, were culled or lost, or went to somebody else; each with one reading a trait in the
/// unit shown, taken from the sittings by which its siblings of the same sowing are judged, and of the same pitchers.
pub(crate) fn gone_of(
    registry: &Registry,
    scope: &Scope,
    (sowings, distinct): (&[OfSowing], &[&Counted]),
    today: Day,
) -> Vec<SelectGone> {
    let left = |plant: &PlantRow| {
        let presence = presence(registry, *plant, today);
        matches!(presence, Presence::Gone | Presence::LetGo)
    };
    let (mut plants, _) = scope.seedlings(registry);
    plants.retain(left);
    let of_traits: Vec<BTreeMap<PlantRow, f64>> = (0..distinct.len())
        .map(|place| beside(registry, &plants, (sowings, place), distinct[place]))
        .collect();
    let row = |&plant: &PlantRow| SelectGone {
        plant: registry.code(plant),
        number: page_number(registry, plant),
        cross: scope.code(registry),
        fate: registry.fate(plant).map(fate_words),
        fate_and_day: registry.fate(plant).map(fate_and_day),
        readings: of_traits.iter().map(|of| of.get(&plant).copied()).collect(),
        beside: Vec::new(),
    };
    plants.iter().map(row).collect()
}

/// One trait of some plants, as read in the sittings that count for their sowing.
fn beside(
    registry: &Registry,
    plants: &[PlantRow],
    (sowings, place): (&[OfSowing], usize),
    of: &Counted,
) -> BTreeMap<PlantRow, f64> {
    let mut wanted = vec![false; registry.settings.traits.len()];
    wanted[of.row.index()] = true;
    let all = readings_of_traits(registry, plants, wanted).swap_remove(of.row.index());
    let judged: BTreeMap<Option<SowingRow>, Vec<(When, Option<PitcherType>)>> = sowings
        .iter()
        .map(|sowing| {
            let at = sowing.read[place].1.as_ref();
            let readings = at.map_or(&[][..], |at| &at.readings[..]);
            (sowing.sowing, readings.iter().map(occasion).collect())
        })
        .collect();
    let all = all.by_plant_and_day().0;
    all.iter()
        .filter(|reading| {
            let sowing = registry.road(reading.plant).0;
            let judged = judged.get(&sowing);
            judged.is_some_and(|judged| judged.contains(&occasion(reading)))
        })
        .map(|reading| (reading.plant, of.unit.shown(reading.value)))
        .collect()
}

fn occasion(reading: &Comparable) -> (When, Option<PitcherType>) {
    (reading.when, reading.pitcher)
}
