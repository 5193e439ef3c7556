//! Readings of the plants of one cross, or of a founder alone.

use crate::analysis::card::{Siblings, summary};
use crate::lineage::PlantRow;
use crate::observation::common_age::last_with_others;
use crate::observation::moment::is_within_a_month;
use crate::observation::scope::Scope;
use crate::observation::series::{Comparable, readings_of_traits};
use crate::observation::trait_unit::TraitUnit;
use crate::observation::traits::span_trait;
use crate::record::When;
use crate::registry::{CrossRow, Registry, TraitRow};
use std::collections::BTreeMap;

/// Readings of one declared trait.
pub struct TraitRead {
    /// How it is shown.
    pub unit: TraitUnit,
    /// By plant and then by day, of each day one.
    pub readings: Vec<Comparable>,
    /// As they were read, by plant and then by day.
    all: Vec<Comparable>,
    has_mean: bool,
}

/// What was read of the plants of one cross, or of a founder alone.
pub struct SharedReadings {
    /// Plants that are surely siblings, ascending.
    sure: Vec<PlantRow>,
    /// Every declared trait.
    pub traits: Vec<TraitRead>,
    /// The trait that is the size of a plant.
    size: Option<TraitRow>,
}

/// One trait as read last.
pub struct TraitSeen<'k> {
    /// How it is shown.
    pub unit: &'k TraitUnit,
    /// The last comparable reading.
    pub last: Comparable,
    /// What the other siblings showed that were read with it; `None` where there are none.
    pub siblings: Option<Siblings>,
}

/// Sizes by age.
pub struct Curve<'k> {
    /// How the size is shown.
    pub unit: &'k TraitUnit,
    /// Of siblings: months from sowing and size in the unit shown, by age.
    pub siblings: Vec<Vec<(f64, f64)>>,
    /// How many siblings there are beyond these.
    pub more: usize,
    /// Of the plant itself; empty for a cross.
    pub own: Vec<(f64, f64)>,
    /// Whether an age is not known to a month, so that its middle stands for it.
    pub is_vague: bool,
}

/// A trait in the last sitting that has it of most plants.
#[derive(Clone, Debug, PartialEq)]
pub struct LastSitting {
    /// The day.
    pub when: When,
    /// Whether all plants were of one age, and one kind of pitcher was read.
    pub alike: bool,
    /// What was read of each plant.
    pub values: Vec<(PlantRow, f64)>,
}

impl SharedReadings {
    /// Of a cross.
    pub fn of_cross(registry: &Registry, cross: CrossRow) -> SharedReadings {
        let scope = Scope {
            cross,
            pod: None,
            sowing: None,
        };
        let sure = scope.seedlings(registry).0;
        SharedReadings::of(registry, sure, &registry[cross].seedlings)
    }

    /// Of a plant that is no seedling.
    pub fn of_founder(registry: &Registry, plant: PlantRow) -> SharedReadings {
        SharedReadings::of(registry, vec![plant], &[plant])
    }

    fn of(registry: &Registry, mut sure: Vec<PlantRow>, all: &[PlantRow]) -> SharedReadings {
        sure.sort_unstable();
        let wanted = vec![true; registry.settings.traits.len()];
        let read = readings_of_traits(registry, all, wanted).into_iter();
        let traits = registry.trait_rows().zip(read);
        let traits = traits.map(|(index, of)| TraitRead {
            unit: TraitUnit::shown_in(registry, index),
            readings: of.by_plant_and_day().0,
            all: of.by_plant(),
            has_mean: of.has_mean,
        });
        SharedReadings {
            sure,
            traits: traits.collect(),
            size: span_trait(registry),
        }
    }

    fn is_sure(&self, plant: PlantRow) -> bool {
        self.sure.binary_search(&plant).is_ok()
    }

    /// The last comparable reading of every trait of a plant.
    pub fn seen(&self, registry: &Registry, plant: PlantRow) -> Vec<TraitSeen<'_>> {
        let seen = |of| self.seen_of(registry, of, plant);
        self.traits.iter().filter_map(seen).collect()
    }

    fn seen_of<'k>(
        &self,
        registry: &Registry,
        of: &'k TraitRead,
        plant: PlantRow,
    ) -> Option<TraitSeen<'k>> {
        let is_beside = |other: &&Comparable| {
            other.plant == plant || (self.is_sure(plant) && self.is_sure(other.plant))
        };
        let beside: Vec<Comparable> = of.all.iter().filter(is_beside).copied().collect();
        let is_own = |of: &Comparable| of.plant == plant;
        let kind = (of.unit.of_pitcher, of.has_mean);
        let (last, alike) = last_with_others(registry, &beside, is_own, kind)?;
        let alike: Vec<f64> = alike.iter().map(|of| of.value).collect();
        Some(TraitSeen {
            unit: &of.unit,
            last,
            siblings: summary(&of.unit, &alike),
        })
    }

    /// How siblings grew, at most so many of them, and one of them in front; `None` where no size was read at a known age.
    pub fn curve(&self, plant: Option<PlantRow>, most: usize) -> Option<Curve<'_>> {
        let of = &self.traits[self.size?.index()];
        let lines = lines(of);
        let own = lines.iter().find(|(of, _)| Some(*of) == plant);
        let own = own.map(|(_, points)| points.clone()).unwrap_or_default();
        if plant.is_some() && own.is_empty() {
            return None;
        }
        let shown = |of: PlantRow| Some(of) != plant && self.is_sure(of);
        let may_be_shown = plant.is_none_or(|plant| self.is_sure(plant));
        let mut siblings: Vec<Vec<(f64, f64)>> = lines
            .into_iter()
            .filter(|(of, _)| may_be_shown && shown(*of))
            .map(|(_, points)| points)
            .collect();
        let more = siblings.len().saturating_sub(most);
        siblings.truncate(most);
        let any = !siblings.is_empty() || !own.is_empty();
        let is_vague = |reading: &Comparable| {
            let age = reading.age;
            age.is_some_and(|(least, most)| !is_within_a_month(most - least))
        };
        any.then_some(Curve {
            is_vague: of.readings.iter().any(is_vague),
            unit: &of.unit,
            siblings,
            more,
            own,
        })
    }
}

/// The sizes of each plant by age, in the order of the registry.
fn lines(of: &TraitRead) -> Vec<(PlantRow, Vec<(f64, f64)>)> {
    let mut lines: Vec<(PlantRow, Vec<(f64, f64)>)> = Vec::new();
    let mut readings: Vec<&Comparable> = of.readings.iter().collect();
    // Stable: the days of a plant stay in their order.
    readings.sort_by_key(|reading| reading.plant);
    for reading in readings {
        let Some((least, most)) = reading.age else {
            continue;
        };
        let point = ((least + most) / 2.0, of.unit.shown(reading.value));
        match lines.last_mut() {
            Some((of, points)) if *of == reading.plant => points.push(point),
            _ => lines.push((reading.plant, vec![point])),
        }
    }
    lines
}

impl TraitRead {
    /// The trait on the last day that has it, of those with half as many plants as the fullest: a sitting just begun, or a look
    /// at a few plants, hides nothing of the others. `None` where it was never read.
    pub fn last_sitting(&self) -> Option<LastSitting> {
        let mut plants: BTreeMap<When, usize> = BTreeMap::new();
        for reading in &self.readings {
            *plants.entry(reading.when).or_default() += 1;
        }
        let fullest = plants.values().copied().max()?;
        let is_full = |reading: &&Comparable| 2 * plants[&reading.when] >= fullest;
        let full = self.readings.iter().filter(is_full);
        let last = full.max_by_key(|reading| reading.when)?;
        let on_that_day = self.readings.iter();
        let on_that_day = on_that_day.filter(|other| other.when == last.when);
        let alike = |other: &Comparable| other.age == last.age && other.pitcher == last.pitcher;
        Some(LastSitting {
            when: last.when,
            alike: on_that_day.clone().all(alike),
            values: on_that_day
                .map(|other| (other.plant, other.value))
                .collect(),
        })
    }
}
