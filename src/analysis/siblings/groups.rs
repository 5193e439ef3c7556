//! Siblings described trait by trait: counts of kinds, or the figures of a measure, for all and for each pod.

use crate::lineage::PlantRow;
use crate::observation::circumstances::{Circumstance, ReadIn, read_in};
use crate::observation::common_age::AtOneAge;
use crate::observation::not_here::{ByReason, NotHere};
use crate::observation::scope::Scope;
use crate::observation::series::Comparable;
use crate::observation::trait_unit::TraitUnit;
use crate::registry::{PodRow, Registry};
use crate::statistics::contingency::compare_pods;
use crate::statistics::describe::{cv_interval, describe, mean_interval};
use crate::statistics::proportion::wilson;
use crate::statistics::ranks::kruskal_wallis;
use crate::statistics::{Confidence, StatisticsError};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};

/// Which siblings.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Which {
    /// All of them.
    All,
    /// Those of one pod, by its code.
    Pod(String),
}

/// Siblings set side by side.
#[derive(Clone, Debug, Serialize)]
pub struct Group {
    /// Whose figures these are.
    pub of: Which,
    /// Plants read.
    pub n: usize,
    /// For a measure.
    pub measure: Option<Measure>,
    /// For kinds and scales, in their declared order.
    pub kinds: Option<Vec<KindCount>>,
    #[serde(skip)]
    pub(crate) values: Vec<f64>,
    /// For each value whether it is doubtful by the trait's own `doubtful_under_span_cm`.
    #[serde(skip)]
    pub(crate) doubtful: Vec<bool>,
    /// For each value the number of its plant; empty for more plants than can be told apart in a picture.
    #[serde(skip)]
    pub(crate) numbers: Vec<String>,
}

/// Most plants of a group whose numbers are kept.
const NUMBERED: usize = 120;

/// A measure in the unit shown.
#[derive(Clone, Debug, Serialize)]
pub struct Measure {
    /// The middle plant.
    pub median: f64,
    /// Lower and upper quartile, type 7 (Hyndman & Fan 1996); from three plants.
    pub quartiles: Option<(f64, f64)>,
    /// Mean.
    pub mean: f64,
    /// 95 % limits of the mean by Student's t; from three plants.
    pub mean_between: Option<(f64, f64)>,
    /// Standard deviation with divisor n − 1; from two plants.
    pub sd: Option<f64>,
    /// Coefficient of variation, a ratio.
    pub cv: Option<f64>,
    /// Its 95 % limits; from three plants.
    pub cv_between: Option<(f64, f64)>,
    /// Why the coefficient has no limits.
    pub cv_unsure: Option<StatisticsError>,
    /// Smallest.
    pub smallest: f64,
    /// Largest.
    pub largest: f64,
}

/// How many plants show a kind.
#[derive(Clone, Debug, Serialize)]
pub struct KindCount {
    /// The kind, or the step with its anchor.
    pub kind: String,
    /// The step from 1; `None` for a kind.
    #[serde(skip)]
    pub(crate) step: Option<usize>,
    /// Plants.
    pub n: u64,
    /// Their share, 0 to 1.
    pub share: f64,
    /// Its 95 % limits (Wilson 1927).
    pub share_between: (f64, f64),
}

/// How pods were compared.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum TestedBy {
    /// Kruskal and Wallis's test on ranks.
    Ranks {
        /// Whether every order was counted.
        exact: bool,
    },
    /// Fisher's exact test on counts.
    Counts,
}

/// Pods differ where chance alone would set them as far apart less often than this.
pub(super) const CLEARLY: f64 = 0.05;

/// A test for difference between pods.
#[derive(Clone, Debug, Serialize)]
pub struct PodTest {
    /// Which test.
    pub method: TestedBy,
    /// Probability of a difference at least as large if the pods were alike; `null` when it cannot be tested.
    pub p: Option<f64>,
    /// The same after Holm's adjustment for all traits tested here.
    pub p_adjusted: Option<f64>,
    /// Traits tested at once.
    pub tests: usize,
    /// Why it cannot be tested.
    pub why_not: Option<StatisticsError>,
    /// What besides the pod differed between pods that seem to, or is not known to be alike.
    #[serde(skip)]
    pub(crate) unlike: Vec<Circumstance>,
}

/// A pod that is not set beside the others.
#[derive(Clone, Debug, Serialize)]
pub struct PodApart {
    /// Its code.
    pub pod: String,
    /// Why its plants are not among those compared.
    pub because: ByReason,
}

impl PodTest {
    /// Whether pods may clearly differ: an adjustment only makes it less likely.
    pub(super) fn may_be_clear(&self) -> bool {
        self.p.is_some_and(|p| p < CLEARLY)
    }
}

/// The plants of each pod with the sittings of their readings.
pub fn read_of_pods(registry: &Registry, readings: &[Comparable]) -> Vec<Vec<ReadIn>> {
    let mut of_pods: BTreeMap<PodRow, Vec<ReadIn>> = BTreeMap::new();
    for reading in readings {
        if let Some(pod) = registry.road(reading.plant).1 {
            of_pods.entry(pod).or_default().push(read_in(reading));
        }
    }
    of_pods.into_values().collect()
}

/// All siblings together, then each pod when there are several with readings.
pub fn groups(
    registry: &Registry,
    scope: Scope,
    unit: &TraitUnit,
    readings: &[Comparable],
) -> Vec<Group> {
    let page = &registry[scope.cross].page;
    let all: Vec<&Comparable> = readings.iter().collect();
    let mut groups = vec![group(registry, Which::All, unit, &all)];
    if scope.pod.is_some() || scope.sowing.is_some() {
        return groups;
    }
    let mut of_pods: Vec<Vec<&Comparable>> = vec![Vec::new(); page.pods.len()];
    for reading in readings {
        if let Some(pod) = registry.road(reading.plant).1 {
            of_pods[pod.at].push(reading);
        }
    }
    let mut pods: Vec<Group> = Vec::new();
    for (pod, readings) in page.pods.iter().zip(of_pods) {
        if !readings.is_empty() {
            let of = Which::Pod(pod.code.to_owned());
            pods.push(group(registry, of, unit, &readings));
        }
    }
    if pods.len() > 1 {
        groups.extend(pods);
    }
    groups
}

/// The pods that were read, but of which no plant is among those compared.
pub fn pods_apart(registry: &Registry, scope: Scope, at: &AtOneAge) -> Vec<PodApart> {
    let page = &registry[scope.cross].page;
    if page.pods.len() < 2 || scope.pod.is_some() || scope.sowing.is_some() {
        return Vec::new();
    }
    let pod_of = |plant: PlantRow| registry.road(plant).1;
    let here = at.readings.iter().filter_map(|of| pod_of(of.plant));
    let here: BTreeSet<PodRow> = here.collect();
    let mut apart: BTreeMap<PodRow, Vec<NotHere>> = BTreeMap::new();
    for &(plant, why) in &at.not_here {
        if let Some(pod) = pod_of(plant).filter(|pod| !here.contains(pod)) {
            apart.entry(pod).or_default().push(why);
        }
    }
    let told = apart.into_iter().map(|(pod, because)| PodApart {
        pod: registry[pod].code.to_owned(),
        because: NotHere::counted(because.into_iter()),
    });
    told.collect()
}

/// Describes readings in the unit shown.
fn group(registry: &Registry, of: Which, unit: &TraitUnit, readings: &[&Comparable]) -> Group {
    let values: Vec<f64> = readings.iter().map(|one| unit.shown(one.value)).collect();
    let number = |one: &&Comparable| match registry.number(one.plant) {
        Some(number) => number.to_owned(),
        None => registry.code(one.plant),
    };
    let numbered = if values.len() <= NUMBERED {
        readings
    } else {
        &[]
    };
    let kinds = unit
        .kinds
        .as_ref()
        .map(|kinds| kind_counts(unit, kinds, &values));
    Group {
        of,
        n: values.len(),
        measure: if kinds.is_none() {
            measure(&values)
        } else {
            None
        },
        kinds,
        numbers: numbered.iter().map(number).collect(),
        doubtful: readings.iter().map(|one| one.doubtful).collect(),
        values,
    }
}

/// How many plants show each kind; steps count from 1, kinds from 0.
fn kind_counts(unit: &TraitUnit, kinds: &[String], values: &[f64]) -> Vec<KindCount> {
    let mut counts = vec![0u64; kinds.len()];
    for value in values {
        let at = *value as usize - usize::from(unit.is_scale);
        counts[at] += 1;
    }
    let all = values.len() as u64;
    let counted = kinds.iter().zip(counts);
    counted
        .enumerate()
        .filter_map(|(at, (kind, n))| {
            let limits = wilson(n, all, Confidence::P95).ok()?;
            Some(KindCount {
                kind: kind.clone(),
                step: unit.is_scale.then_some(at + 1),
                n,
                share: n as f64 / all as f64,
                share_between: (limits.low, limits.high),
            })
        })
        .collect()
}

/// The figures of a measure; none without a value.
pub fn measure(values: &[f64]) -> Option<Measure> {
    let present: Vec<Option<f64>> = values.iter().copied().map(Some).collect();
    let described = describe(&present).ok()?;
    let from_three = values.len() >= 3;
    let cv = cv_interval(values, Confidence::P95);
    let mean = mean_interval(values, Confidence::P95).ok();
    // No reading is below zero, so no mean of them is.
    let mean_between = mean.filter(|_| from_three);
    let mean_between = mean_between.map(|of| (of.low.max(0.0), of.high));
    Some(Measure {
        median: described.median,
        quartiles: from_three.then_some(described.quartiles),
        mean: described.mean,
        mean_between,
        sd: described.sd.ok(),
        cv: described.cv.ok(),
        cv_between: cv.ok().map(|i| (i.low, i.high)),
        cv_unsure: cv.err(),
        smallest: described.smallest,
        largest: described.largest,
    })
}

/// Tests pods for difference; none when fewer than two have readings.
pub fn test_pods(unit: &TraitUnit, pods: &[Group]) -> Option<PodTest> {
    if pods.len() < 2 {
        return None;
    }
    let (method, p) = if unit.is_measure() {
        let values: Vec<Vec<f64>> = pods.iter().map(|pod| pod.values.clone()).collect();
        by_ranks(&values)
    } else {
        by_counts(pods)
    };
    Some(PodTest {
        method,
        p: p.ok(),
        p_adjusted: None,
        tests: 0,
        why_not: p.err(),
        unlike: Vec::new(),
    })
}

fn by_ranks(values: &[Vec<f64>]) -> (TestedBy, Result<f64, StatisticsError>) {
    let test = kruskal_wallis(values);
    let exact = test.as_ref().is_ok_and(|test| test.p_exact.is_some());
    (TestedBy::Ranks { exact }, test.map(|test| test.p()))
}

fn by_counts(pods: &[Group]) -> (TestedBy, Result<f64, StatisticsError>) {
    let counts = |pod: &Group| -> Vec<u64> {
        let kinds = pod.kinds.as_deref().unwrap_or_default();
        kinds.iter().map(|kind| kind.n).collect()
    };
    let rows: Vec<Vec<u64>> = pods.iter().map(counts).collect();
    let p = compare_pods(&rows).map(|test| test.p_exact);
    (TestedBy::Counts, p)
}
