//! What is read on possible parents, and how much this grower's pods spread, trait by trait.
//!
//! Two parents count with their readings at the latest age both were read at, else each with its latest ones; readings
//! of different ages are never averaged. A plant without any counts with nothing: no figure is made up for it here. The spread is pooled within pods within sittings, so that only siblings read on one day are set
//! against each other. Predicted merit from relatives is another question.

use super::series::{Comparable, comparable};
use crate::ancestry::{Founders, TraitVariance, two_copies, variance_from_parent};
use crate::lineage::{Lineage, PlantRow};
use crate::record::Reads;
use crate::registry::Registry;
use std::collections::BTreeMap;

/// Readings a pod needs in one sitting to tell its spread.
const FEWEST: usize = 5;

/// Readings of one trait.
pub struct ParentReadings {
    /// Index of the trait among the declared ones.
    pub index: u16,
    /// Comparable readings of each plant, as they stand in the sittings.
    of_plant: BTreeMap<PlantRow, Vec<Comparable>>,
    /// For each origin with enough readings: squared deviations and degrees of freedom.
    within: BTreeMap<u32, (f64, usize)>,
}

impl ParentReadings {
    /// Gathers all comparable readings of a trait; `None` for a trait of kinds without order.
    pub fn of(registry: &Registry, index: u16) -> Option<ParentReadings> {
        if matches!(
            registry.settings.traits[usize::from(index)].reads,
            Reads::Kinds(_)
        ) {
            return None;
        }
        let plants: Vec<PlantRow> = registry.plants().collect();
        let (readings, _) = comparable(registry, &plants, index);
        let mut of_plant: BTreeMap<PlantRow, Vec<Comparable>> = BTreeMap::new();
        for reading in &readings {
            of_plant.entry(reading.plant).or_default().push(*reading);
        }
        Some(ParentReadings {
            index,
            of_plant,
            within: within_pods(registry, &readings),
        })
    }

    /// Whether anything comparable was read on a plant.
    pub fn is_read(&self, plant: PlantRow) -> bool {
        self.of_plant.contains_key(&plant)
    }

    /// What two plants count with: their readings at the latest age both were read at; without one each plant's latest.
    pub fn of_pair(&self, pair: [PlantRow; 2]) -> [Option<ReadAt>; 2] {
        let of = pair.map(|plant| self.of_plant.get(&plant).map_or(&[][..], Vec::as_slice));
        let shared = ages(of[0])
            .filter(|age| ages(of[1]).any(|other| one_age(*age, other)))
            .fold(None, |latest: Option<f64>, age| {
                Some(latest.map_or(age, |latest| latest.max(age)))
            });
        match shared {
            Some(age) => of.map(|readings| at_age(readings, age)),
            None => of.map(latest),
        }
    }

    /// Pooled standard deviation within this grower's pods, and the pods it rests on.
    pub fn pooled(&self) -> Option<(f64, usize)> {
        let squares: f64 = self.within.values().map(|(squares, _)| squares).sum();
        let freedom: usize = self.within.values().map(|(_, freedom)| freedom).sum();
        (freedom > 0).then(|| (libm::sqrt(squares / freedom as f64), self.within.len()))
    }
}

/// What a parent counts with in one trait.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ReadAt {
    /// Mean of the readings, in the registry's own unit.
    pub mean: f64,
    /// Readings in it.
    pub readings: usize,
    /// Age at them in months, least and greatest; `None` when its sowing is not dated.
    pub age: Option<(f64, f64)>,
}

/// Middles of the ages a plant was read at.
fn ages(readings: &[Comparable]) -> impl Iterator<Item = f64> {
    let aged = readings.iter().filter_map(|reading| reading.age);
    aged.map(|(least, most)| 0.5 * (least + most))
}

/// Ages within half a month or a twentieth count as one, as wherever one tray is described.
fn one_age(one: f64, other: f64) -> bool {
    (one - other).abs() <= f64::max(0.5, 0.05 * f64::max(one, other))
}

fn at_age(readings: &[Comparable], age: f64) -> Option<ReadAt> {
    let at = |reading: &&Comparable| {
        let own = reading.age.map(|(least, most)| 0.5 * (least + most));
        own.is_some_and(|own| one_age(own, age))
    };
    // A plant read twice within the allowance counts with the later reading: ages are never averaged.
    let last = readings
        .iter()
        .filter(at)
        .map(|reading| reading.when)
        .max_by_key(|when| (when.last, when.first))?;
    taken(
        readings
            .iter()
            .filter(at)
            .filter(|reading| reading.when == last),
    )
}

fn latest(readings: &[Comparable]) -> Option<ReadAt> {
    let last = readings
        .iter()
        .map(|reading| reading.when)
        .max_by_key(|when| (when.last, when.first))?;
    taken(readings.iter().filter(|reading| reading.when == last))
}

/// Readings of one day together.
fn taken<'c>(readings: impl Iterator<Item = &'c Comparable>) -> Option<ReadAt> {
    let readings: Vec<&Comparable> = readings.collect();
    let sum: f64 = readings.iter().map(|reading| reading.value).sum();
    Some(ReadAt {
        mean: sum / readings.len() as f64,
        readings: readings.len(),
        age: readings.first()?.age,
    })
}

fn within_pods(registry: &Registry, readings: &[Comparable]) -> BTreeMap<u32, (f64, usize)> {
    let mut together: BTreeMap<(u32, u32), Vec<f64>> = BTreeMap::new();
    for reading in readings {
        if let Some(origin) = registry.origin_of(reading.plant) {
            together
                .entry((origin, reading.sitting))
                .or_default()
                .push(reading.value);
        }
    }
    let mut within: BTreeMap<u32, (f64, usize)> = BTreeMap::new();
    for ((origin, _), values) in together
        .into_iter()
        .filter(|(_, values)| values.len() >= FEWEST)
    {
        let mean = values.iter().sum::<f64>() / values.len() as f64;
        let squares: f64 = values.iter().map(|v| (v - mean) * (v - mean)).sum();
        let pod = within.entry(origin).or_default();
        *pod = (pod.0 + squares, pod.1 + values.len() - 1);
    }
    within
}

/// How much more a pod's seedlings are expected to vary than those of a species' pod, from the pedigree alone.
pub struct ExpectedSpread {
    /// Variance from each plant asked for, for S = 0 and for S = [`MOST_BETWEEN`], in units of V.
    parts: BTreeMap<PlantRow, [f64; 2]>,
}

/// Spread between two species (S) at most, in units of the variance within one (V): an assumption.
pub const MOST_BETWEEN: f64 = 4.0;

/// Variance within a pod of one species, in units of V.
const OF_A_SPECIES: f64 = 0.5;

impl ExpectedSpread {
    /// Works out what each of some plants adds.
    ///
    /// # Errors
    /// In words, when the pedigree is too entangled.
    pub fn of(lineage: &Lineage, founders: &Founders, plants: &[PlantRow]) -> Result<Self, String> {
        let copies =
            two_copies(&lineage.pedigree, founders, plants).map_err(|error| error.to_string())?;
        let parts = plants.iter().zip(&copies).map(|(&plant, copies)| {
            let with = |between: f64| {
                let assumed = TraitVariance {
                    within: &|_| 1.0,
                    between: &|_, _| between,
                };
                variance_from_parent(copies, &assumed)
            };
            (plant, [with(0.0), with(MOST_BETWEEN)])
        });
        Ok(Self {
            parts: parts.collect(),
        })
    }

    /// What one of the plants adds to the variance of its pods, in units of V, for S = 0 and S at most.
    pub fn from(&self, plant: PlantRow) -> [f64; 2] {
        self.parts[&plant]
    }

    /// Variance of the pod of two of the plants, in units of V, for S = 0 and S at most.
    pub fn variance(&self, seed: PlantRow, pollen: PlantRow) -> [f64; 2] {
        let (one, other) = (self.parts[&seed], self.parts[&pollen]);
        [one[0] + other[0], one[1] + other[1]]
    }

    /// The standard deviation against that of a species' pod, least and greatest.
    pub fn ratio(&self, seed: PlantRow, pollen: PlantRow) -> (f64, f64) {
        let [least, most] = self
            .variance(seed, pollen)
            .map(|v| libm::sqrt(v / OF_A_SPECIES));
        (least, most)
    }
}

/// The certain parents of the pods a trait's spread rests on.
pub fn reference_parents(lineage: &Lineage, readings: &[ParentReadings]) -> Vec<PlantRow> {
    let origins = readings.iter().flat_map(|trait_| trait_.within.keys());
    let mut plants: Vec<PlantRow> = origins
        .filter_map(|&origin| certain_pair(lineage, origin))
        .flatten()
        .collect();
    plants.sort_unstable();
    plants.dedup();
    plants
}

fn certain_pair(lineage: &Lineage, origin: u32) -> Option<[PlantRow; 2]> {
    match lineage.pedigree.origins()[origin as usize].pairs[..] {
        [pair] => Some([pair.seed?, pair.pollen?]),
        _ => None,
    }
}

impl ParentReadings {
    /// Expected standard deviation among the seedlings of a pair as they will be read: this grower's pooled one, scaled
    /// by the variances the pedigree lets expect; least and greatest over S. `None` without pods to go by.
    pub fn expected_deviation(
        &self,
        lineage: &Lineage,
        spread: &ExpectedSpread,
        (seed, pollen): (PlantRow, PlantRow),
    ) -> Option<(f64, f64)> {
        let mut sums = [0.0; 2];
        let (mut freedom, mut squares) = (0.0, 0.0);
        for (&origin, &(of_pod, n)) in &self.within {
            let Some([s, p]) = certain_pair(lineage, origin) else {
                continue;
            };
            let variance = spread.variance(s, p);
            (0..2).for_each(|at| sums[at] += n as f64 * variance[at]);
            freedom += n as f64;
            squares += of_pod;
        }
        let of_pair = spread.variance(seed, pollen);
        let scaled = |at: usize| libm::sqrt(squares / freedom * of_pair[at] * freedom / sums[at]);
        (freedom > 0.0 && sums.iter().all(|sum| *sum > 0.0))
            .then(|| (scaled(0).min(scaled(1)), scaled(0).max(scaled(1))))
    }
}
