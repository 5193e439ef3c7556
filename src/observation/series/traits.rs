//! Declared traits by name, and the readings of one or all of them.

use crate::lineage::PlantRow;
use crate::observation::series::asked::Asked;
use crate::observation::series::left_out::LeftOut;
use crate::observation::series::of_a_day::one_a_day;
use crate::observation::series::readings::{Comparable, TraitReadings};
use crate::observation::series::sitting::{one_method, one_method_of};
use crate::observation::series::walk::{Wanted, walk};
use crate::record::PitcherType;
use crate::registry::{Registry, TraitRow};

/// All readings of one trait on some plants that may be compared at all, by plant and then by day; of a trait of the
/// pitcher only the age class, juvenile or adult, with more readings.
pub fn comparable(
    registry: &Registry,
    plants: &[PlantRow],
    index: TraitRow,
) -> (Vec<Comparable>, LeftOut) {
    let of = readings_of(registry, plants, index);
    let (mut readings, mut left_out) = (of.by_plant(), of.left_out);
    if registry[index].of_pitcher {
        left_out.other_pitcher += one_pitcher_class(&mut readings);
    }
    (readings, left_out)
}

/// As [`comparable`], of each day one method and of each plant one reading; see [`one_method`] and [`one_a_day`].
pub fn comparable_by_day(
    registry: &Registry,
    plants: &[PlantRow],
    index: TraitRow,
) -> (Vec<Comparable>, LeftOut) {
    let (mut readings, mut left_out) = comparable(registry, plants, index);
    left_out.other_method += one_method(registry, &mut readings, |of| of.when);
    left_out.unlike_that_day += one_a_day(&mut readings, registry[index].reads.has_mean());
    (readings, left_out)
}

/// As [`comparable_by_day`], of one plant: which of two methods of a day counts, its siblings decide as well.
pub fn comparable_of_one(
    registry: &Registry,
    plant: PlantRow,
    siblings: &[PlantRow],
    index: TraitRow,
) -> (Vec<Comparable>, LeftOut) {
    let (own, mut left_out) = comparable(registry, &[plant], index);
    let beside = || comparable(registry, siblings, index).0;
    let has_mean = registry[index].reads.has_mean();
    let (readings, more) = own_by_day(registry, &own, beside, has_mean);
    left_out.add(&more);
    (readings, left_out)
}

/// Of the readings of one plant of each day one, by one method; `beside` gives those of its siblings, where a day has several.
pub fn own_by_day(
    registry: &Registry,
    own: &[Comparable],
    beside: impl Fn() -> Vec<Comparable>,
    has_mean: bool,
) -> (Vec<Comparable>, LeftOut) {
    let mut left_out = LeftOut::default();
    let mut readings = Vec::with_capacity(own.len());
    let mut siblings: Option<Vec<Comparable>> = None;
    for day in own.chunk_by(|a, b| a.when == b.when) {
        let [first, _, ..] = day else {
            readings.extend(day);
            continue;
        };
        let is_beside = |of: &&Comparable| {
            (of.when, of.age) == (first.when, first.age) && of.plant != first.plant
        };
        let siblings = siblings
            .get_or_insert_with(&beside)
            .iter()
            .filter(is_beside);
        let mut of_day: Vec<Comparable> = day.iter().chain(siblings).copied().collect();
        one_method_of(registry, first.plant, &mut of_day);
        readings.extend(of_day.into_iter().filter(|of| of.plant == first.plant));
    }
    left_out.other_method = own.len() - readings.len();
    left_out.unlike_that_day = one_a_day(&mut readings, has_mean);
    (readings, left_out)
}

/// The readings of the wanted ones of the declared traits on some plants, in the order of the traits; empty for one not
/// wanted. Pitchers of both age classes are still among them: see [`one_pitcher_class`].
pub fn readings_of_traits(
    registry: &Registry,
    plants: &[PlantRow],
    traits: Vec<bool>,
) -> Vec<TraitReadings> {
    let wanted = Wanted {
        traits,
        pests_too: false,
    };
    walk(registry, Asked::of(registry, plants), &wanted)
}

/// The readings of one trait; pitchers of both age classes are still among them.
pub fn readings_of(registry: &Registry, plants: &[PlantRow], index: TraitRow) -> TraitReadings {
    of_one(registry, plants, index, false)
}

/// The readings of one trait with those flagged for pests among them, each marked so.
pub fn with_pests(registry: &Registry, plants: &[PlantRow], index: TraitRow) -> TraitReadings {
    of_one(registry, plants, index, true)
}

fn of_one(
    registry: &Registry,
    plants: &[PlantRow],
    index: TraitRow,
    pests_too: bool,
) -> TraitReadings {
    let mut traits = vec![false; registry.settings.traits.len()];
    traits[index.index()] = true;
    let wanted = Wanted { traits, pests_too };
    walk(registry, Asked::of(registry, plants), &wanted).swap_remove(index.index())
}

/// Keeps the readings of the pitcher class, juvenile or adult, that has more of them (adult when even); returns how many
/// were left out.
pub fn one_pitcher_class(kept: &mut Vec<Comparable>) -> usize {
    let juvenile = |reading: &Comparable| reading.pitcher == Some(PitcherType::Juvenile);
    let young = kept.iter().filter(|reading| juvenile(reading)).count();
    let adult = kept.len() - young;
    let keep_young = young > adult;
    let before = kept.len();
    kept.retain(|reading| juvenile(reading) == keep_young);
    before - kept.len()
}
