//! What is read on possible parents, and how much this grower's pods spread, trait by trait.
//!
//! Two parents count with their readings at the latest age both were read at, else each with its latest ones; readings
//! of different ages are never averaged. A plant without any counts with nothing: no figure is made up for it here. The
//! spread is that within pods read at the same age as the parents, each sowing by itself on one day, since spread grows
//! with size. Predicted merit from relatives is another question.

use crate::analysis::expected_spread::{ExpectedSpread, LEAST_AND_MOST};
use crate::analysis::set_aside::SetAside;
use crate::lineage::{Lineage, PlantRow};
use crate::observation::scope::with_siblings;
use crate::observation::series::{
    Comparable, SittingKey, comparable, one_a_day, own_by_day, sitting_key,
};
use crate::planning::merit::one_age;
use crate::record::Reads;
use crate::registry::{OriginRow, Registry, SowingRow, TraitRow};
use crate::statistics::describe::squares;
use crate::statistics::heritability::{heritability_within, seen_variance};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// Readings that all pods together need to tell a spread by, beyond one for the mean of each.
const FEWEST: f64 = 4.0;

/// Readings of one trait.
pub struct ParentReadings {
    /// Index of the trait among the declared ones.
    pub index: TraitRow,
    /// Comparable readings, plant by plant as they stand in the sittings.
    by_plant: Vec<Comparable>,
    /// Sowings of which several plants were read in one sitting, that with most plants first.
    together: Vec<Together>,
    /// Steps of a scale, which may be set beside each other also where their ages differ.
    is_scale: bool,
}

/// Plants of one sowing read in one sitting, each with one reading.
struct Together {
    origin: OriginRow,
    readings: Vec<Comparable>,
}

/// The spread within one sowing in one sitting.
struct Within {
    origin: OriginRow,
    /// Squared deviations from the mean.
    squares: f64,
    plants: usize,
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
        let (readings, _) = comparable(registry, &plants, index);
        Some(ParentReadings {
            index,
            together: read_together(registry, &readings, reads.has_mean()),
            by_plant: readings,
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
    pub fn of_pair(&self, registry: &Registry, pair: [PlantRow; 2]) -> OfPair {
        let own = pair.map(|plant| self.of_day(registry, plant));
        let shared = ages(&own[0]).filter(|age| ages(&own[1]).any(|other| one_age(*age, other)));
        let age = shared.reduce(f64::max);
        let sides = own.map(|readings| match age {
            Some(age) => at_age(&readings, age),
            None => last(readings.iter()),
        });
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

    /// The readings of a plant, of each day one.
    fn of_day(&self, registry: &Registry, plant: PlantRow) -> Vec<Comparable> {
        let beside = || {
            let siblings = with_siblings(registry, plant).into_iter();
            siblings.flat_map(|of| self.of_plant(of)).copied().collect()
        };
        let has_mean = registry[self.index].reads.has_mean();
        own_by_day(registry, self.of_plant(plant), beside, has_mean).0
    }
}

/// What a parent counts with in one trait.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct ReadAt {
    /// Its reading, in the registry's own unit; of several on one day their mean.
    pub mean: f64,
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

/// A plant read twice within the allowance counts with the later reading: ages are never averaged.
fn at_age(readings: &[Comparable], age: f64) -> Option<ReadAt> {
    let at = |reading: &&Comparable| is_surely(reading.age, age);
    last(readings.iter().filter(at))
}

fn last<'c>(readings: impl Iterator<Item = &'c Comparable>) -> Option<ReadAt> {
    let last = readings.max_by_key(|reading| (reading.when.last, reading.when.first))?;
    Some(ReadAt {
        mean: last.value,
        age: last.age,
    })
}

/// An origin, a sowing of it, a sitting.
type Occasion<'r> = (OriginRow, Option<SowingRow>, SittingKey<'r>);

fn read_together(registry: &Registry, readings: &[Comparable], has_mean: bool) -> Vec<Together> {
    let mut occasions: BTreeMap<Occasion, Vec<Comparable>> = BTreeMap::new();
    for reading in readings {
        if let Some(origin) = registry.origin_of(reading.plant) {
            let (sowing, ..) = registry.road(reading.plant);
            let key = (origin, sowing, sitting_key(registry, reading.sitting));
            occasions.entry(key).or_default().push(*reading);
        }
    }
    let each = occasions.into_iter().map(|((origin, ..), mut readings)| {
        one_a_day(&mut readings, has_mean);
        Together { origin, readings }
    });
    let mut together: Vec<Together> = each.filter(|of| of.readings.len() > 1).collect();
    together.sort_by_key(|of| Reverse(of.readings.len()));
    together
}

/// The certain parents of the pods a trait's spread rests on.
pub fn reference_parents(lineage: &Lineage, readings: &[ParentReadings]) -> Vec<PlantRow> {
    let together = readings.iter().flat_map(|trait_| &trait_.together);
    let mut plants: Vec<PlantRow> = together
        .filter_map(|of| certain_pair(lineage, of.origin))
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
    /// Plants behind it, each with one reading.
    pub plants: usize,
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
    /// not inherited is taken as alike in all pods. `None` without an age, or without pods to go by.
    pub fn expected_deviation(
        &self,
        lineage: &Lineage,
        (spread, heritability): (&ExpectedSpread, f64),
        (pair, age): ([PlantRow; 2], Option<f64>),
    ) -> Option<Deviation> {
        let of_pair = spread.variance(pair[0], pair[1]);
        let seen = |genetic: f64| seen_variance(genetic, heritability);
        let mut squares = [[0.0; 2]; 2];
        let (mut freedom, mut plants, mut pods) = (0.0, 0, Vec::new());
        for within in self.within(age) {
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
            freedom += (within.plants - 1) as f64;
            plants += within.plants;
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
            plants,
            pods: pods.len(),
        })
    }

    /// The pods read at an age whose spread does not count, since it is scaled by what the parents' ancestry predicts.
    pub fn set_aside(&self, lineage: &Lineage, age: Option<f64>) -> SetAside {
        let mut aside = SetAside::default();
        let mut origins: Vec<OriginRow> = Vec::new();
        let uncertain = |of: &Within| certain_pair(lineage, of.origin).is_none();
        for within in self.within(age).into_iter().filter(uncertain) {
            aside.readings += within.plants;
            origins.push(within.origin);
        }
        origins.sort_unstable();
        origins.dedup();
        let several = |origin: &&OriginRow| lineage.pedigree[**origin].pairs.len() > 1;
        aside.one_of_several = origins.iter().filter(several).count();
        aside.parent_unknown = origins.len() - aside.one_of_several;
        aside
    }

    /// The spread within each sowing at an age, each plant in one sitting alone: in that with most plants of those it was read
    /// in. Read again it is no further plant.
    fn within(&self, age: Option<f64>) -> Vec<Within> {
        let Some(age) = age else {
            return Vec::new();
        };
        let mut seen: BTreeSet<PlantRow> = BTreeSet::new();
        let within = |of: &Together| {
            let at_age = of.readings.iter().filter(|of| is_surely(of.age, age));
            let values: Vec<f64> = at_age
                .filter(|of| seen.insert(of.plant))
                .map(|of| of.value)
                .collect();
            Within {
                origin: of.origin,
                squares: squares(&values),
                plants: values.len(),
            }
        };
        let within = self.together.iter().map(within);
        within.filter(|of| of.plants > 1).collect()
    }
}
