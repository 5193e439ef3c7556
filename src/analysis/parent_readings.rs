//! What is read on possible parents, and how much this grower's pods spread, trait by trait.
//!
//! Two parents count with their readings at the latest age both were read at, else each with its latest ones; readings
//! of different ages are never averaged. A plant without any counts with nothing: no figure is made up for it here. The
//! spread is that within pods read at the same age as the parents, each sowing by itself on one day, since spread grows
//! with size. Predicted merit from relatives is another question.

use crate::analysis::expected_spread::{ExpectedSpread, LEAST_AND_MOST};
use crate::analysis::set_aside::SetAside;
use crate::lineage::{Lineage, PlantRow};
use crate::observation::series::{Comparable, comparable};
use crate::planning::merit::one_age;
use crate::record::Reads;
use crate::registry::{OriginRow, Registry, SittingRow, SowingRow, TraitRow};
use crate::statistics::heritability::{heritability_within, seen_variance};
use std::collections::BTreeMap;

/// Readings that all pods together need to tell a spread by, beyond one for the mean of each.
const FEWEST: f64 = 4.0;

/// Readings of one trait.
pub struct ParentReadings {
    /// Index of the trait among the declared ones.
    pub index: TraitRow,
    /// Comparable readings, plant by plant as they stand in the sittings.
    by_plant: Vec<Comparable>,
    /// Sowings with several readings on one day.
    within: Vec<Within>,
    /// Steps of a scale, which may be set beside each other also where their ages differ.
    is_scale: bool,
}

/// The spread within one sowing on one day.
struct Within {
    origin: OriginRow,
    /// Age in months, least and greatest.
    age: Option<(f64, f64)>,
    /// Squared deviations from the mean.
    squares: f64,
    readings: usize,
}

/// What two plants count with.
pub struct OfPair {
    /// The seed parent, then the pollen parent.
    pub sides: [Option<ReadAt>; 2],
    /// The age both were read at, in months; that of the only one read.
    pub age: Option<f64>,
    /// Whether the two may be set beside each other: read at one age, or both in steps of a scale.
    pub comparable: bool,
}

impl ParentReadings {
    /// Gathers all comparable readings of a trait; `None` for a trait of kinds without order.
    pub fn of(registry: &Registry, index: TraitRow) -> Option<ParentReadings> {
        let reads = &registry[index].reads;
        if matches!(reads, Reads::Kinds(_)) {
            return None;
        }
        let plants: Vec<PlantRow> = registry.plants().collect();
        let (mut readings, _) = comparable(registry, &plants, index);
        let within = within_pods(registry, &readings);
        readings.sort_by_key(|reading| reading.plant);
        Some(ParentReadings {
            index,
            by_plant: readings,
            within,
            is_scale: matches!(reads, Reads::Scale(_)),
        })
    }

    /// Whether anything comparable was read on a plant.
    pub fn is_read(&self, plant: PlantRow) -> bool {
        !self.of_plant(plant).is_empty()
    }

    fn of_plant(&self, plant: PlantRow) -> &[Comparable] {
        let first = self
            .by_plant
            .partition_point(|reading| reading.plant < plant);
        let rest = &self.by_plant[first..];
        &rest[..rest.partition_point(|reading| reading.plant == plant)]
    }

    /// What two plants count with: their readings at the latest age both were read at; without one each plant's latest.
    pub fn of_pair(&self, pair: [PlantRow; 2]) -> OfPair {
        let of = pair.map(|plant| self.of_plant(plant));
        let age = ages(of[0])
            .filter(|age| ages(of[1]).any(|other| one_age(*age, other)))
            .fold(None, |latest: Option<f64>, age| {
                Some(latest.map_or(age, |latest| latest.max(age)))
            });
        let sides = match age {
            Some(age) => of.map(|readings| at_age(readings, age)),
            None => of.map(latest),
        };
        let only = match sides {
            [Some(read), None] | [None, Some(read)] => read.middle_age(),
            _ => None,
        };
        OfPair {
            comparable: sides.iter().all(Option::is_some) && (age.is_some() || self.is_scale),
            sides,
            age: age.or(only),
        }
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

impl ReadAt {
    fn middle_age(&self) -> Option<f64> {
        self.age.map(|(least, most)| 0.5 * (least + most))
    }
}

/// Whether an age, least and greatest, is another one on every day that it may be.
fn is_surely(age: Option<(f64, f64)>, at: f64) -> bool {
    age.is_some_and(|(least, most)| one_age(least, at) && one_age(most, at))
}

/// Middles of the ages a plant was read at, as far as they are one age whatever the day.
fn ages(readings: &[Comparable]) -> impl Iterator<Item = f64> {
    let middle =
        |age: (f64, f64)| Some(0.5 * (age.0 + age.1)).filter(|at| is_surely(Some(age), *at));
    readings
        .iter()
        .filter_map(move |reading| middle(reading.age?))
}

fn at_age(readings: &[Comparable], age: f64) -> Option<ReadAt> {
    let at = |reading: &&Comparable| is_surely(reading.age, age);
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

/// An origin, a sowing of it, a sitting.
type Occasion = (OriginRow, Option<SowingRow>, SittingRow);

fn within_pods(registry: &Registry, readings: &[Comparable]) -> Vec<Within> {
    let mut together: BTreeMap<Occasion, Vec<&Comparable>> = BTreeMap::new();
    for reading in readings {
        if let Some(origin) = registry.origin_of(reading.plant) {
            let (sowing, ..) = registry.road(reading.plant);
            let key = (origin, sowing, reading.sitting);
            together.entry(key).or_default().push(reading);
        }
    }
    let enough = together.into_iter().filter(|(_, of)| of.len() > 1);
    let within = |((origin, ..), of): (Occasion, Vec<&Comparable>)| {
        let mean = of.iter().map(|reading| reading.value).sum::<f64>() / of.len() as f64;
        let square = |reading: &&Comparable| (reading.value - mean) * (reading.value - mean);
        Within {
            origin,
            age: of[0].age,
            squares: of.iter().map(square).sum(),
            readings: of.len(),
        }
    };
    enough.map(within).collect()
}

/// The certain parents of the pods a trait's spread rests on.
pub fn reference_parents(lineage: &Lineage, readings: &[ParentReadings]) -> Vec<PlantRow> {
    let within = readings.iter().flat_map(|trait_| &trait_.within);
    let mut plants: Vec<PlantRow> = within
        .filter_map(|within| certain_pair(lineage, within.origin))
        .flatten()
        .collect();
    plants.sort_unstable();
    plants.dedup();
    plants
}

fn certain_pair(lineage: &Lineage, origin: OriginRow) -> Option<[PlantRow; 2]> {
    match lineage.pedigree[origin].pairs[..] {
        [pair] => Some([pair.seed?, pair.pollen?]),
        _ => None,
    }
}

/// An expected spread, and what it comes from.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Deviation {
    /// What is expected for the least and for the greatest difference between species assumed.
    pub with: [SeenSpread; 4],
    /// Readings behind it.
    pub readings: usize,
    /// Origins they were taken in.
    pub pods: usize,
}

/// How the seedlings of a pod will differ as they are read.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct SeenSpread {
    /// Standard deviation of the readings.
    pub deviation: f64,
    /// Part of their variance that is inherited, 0 to 1.
    pub inherited: f64,
}

impl ParentReadings {
    /// Expected standard deviation among the seedlings of a pair as they will be read at an age: that of this grower's
    /// pods at it, pooled and scaled by the variances the pedigree lets expect at a heritability inside a species. What is
    /// not inherited is taken as alike in all pods. Without an age only steps of a scale are pooled. `None` without pods
    /// to go by.
    pub fn expected_deviation(
        &self,
        lineage: &Lineage,
        (spread, heritability): (&ExpectedSpread, f64),
        (pair, age): ([PlantRow; 2], Option<f64>),
    ) -> Option<Deviation> {
        let of_pair = spread.variance(pair[0], pair[1]);
        let seen = |genetic: f64| seen_variance(genetic, heritability);
        let mut squares = [[0.0; 2]; 2];
        let (mut freedom, mut readings, mut pods) = (0.0, 0, Vec::new());
        for within in self.within.iter().filter(|within| self.counts(within, age)) {
            let Some([seed, pollen]) = certain_pair(lineage, within.origin) else {
                continue;
            };
            let of_pod = spread.variance(seed, pollen);
            for (squares, between) in squares.iter_mut().zip(LEAST_AND_MOST) {
                let [own, other] = [&of_pair, &of_pod].map(|of| of.at(between).map(seen));
                // The least of the pair goes with the most of the pod read, and the other way round.
                for (end, sum) in squares.iter_mut().enumerate() {
                    *sum += within.squares * own[end] / other[1 - end];
                }
            }
            freedom += (within.readings - 1) as f64;
            readings += within.readings;
            pods.push(within.origin);
        }
        pods.sort_unstable();
        pods.dedup();
        let with = |at: usize| {
            let (between, end) = (at / 2, at % 2);
            let genetic = of_pair.at(LEAST_AND_MOST[between])[end];
            SeenSpread {
                deviation: libm::sqrt(squares[between][end] / freedom),
                inherited: heritability_within(genetic, heritability),
            }
        };
        let is_told = freedom >= FEWEST && squares.iter().flatten().all(|sum| sum.is_finite());
        is_told.then(|| Deviation {
            with: [0, 1, 2, 3].map(with),
            readings,
            pods: pods.len(),
        })
    }

    /// The pods read at an age whose spread does not count, since it is scaled by what the parents' ancestry predicts.
    pub fn set_aside(&self, lineage: &Lineage, age: Option<f64>) -> SetAside {
        let mut aside = SetAside::default();
        let counted = self.within.iter().filter(|within| self.counts(within, age));
        let mut origins: Vec<OriginRow> = Vec::new();
        for within in counted.filter(|within| certain_pair(lineage, within.origin).is_none()) {
            aside.readings += within.readings;
            origins.push(within.origin);
        }
        origins.sort_unstable();
        origins.dedup();
        let several = |origin: &&OriginRow| lineage.pedigree[**origin].pairs.len() > 1;
        aside.one_of_several = origins.iter().filter(several).count();
        aside.parent_unknown = origins.len() - aside.one_of_several;
        aside
    }

    fn counts(&self, within: &Within, age: Option<f64>) -> bool {
        match age {
            Some(age) => is_surely(within.age, age),
            None => self.is_scale,
        }
    }
}
