//! Two groups at one age: sizes, the difference with its interval, what else differed, and a verdict in plain words.
//!
//! Crosses and species are compared by the means of their pods where both sides have two or more, because siblings of
//! a pod share a mother, a tray and a day; otherwise by plants, and then the verdict says at most "probably". Vague
//! dates widen the interval: every size that fits the dates is allowed for. The words are defined in `docs/numbers.md`.

use crate::analysis::growth::common_age::{ages_read_in_all, common_age};
use crate::analysis::growth::group::{Family, Group, GroupKind, family};
use crate::analysis::growth::grown::{AtAge, Grown};
use crate::lineage::PlantRow;
use crate::observation::batch::Batch;
use crate::observation::circumstances::{Circumstance, ReadIn, circumstances};
use crate::observation::moment::NEAR;
use crate::registry::{CrossRow, Registry};
use crate::statistics::describe::{describe, quantile};
use crate::statistics::location::{hedges_g, welch};
use crate::statistics::vague_means::welch_of_ranges;
use crate::statistics::{Confidence, Interval, Scale};
use serde::Serialize;
use std::collections::BTreeMap;

/// What can be said of two groups.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// At no age do both have a plant with a size.
    NoCommonAge,
    /// A side has fewer than two plants (or pods), or all are equal: no interval.
    TooFew,
    /// The interval holds zero, or of several pairs compared the adjusted probability is not below one in twenty.
    NoClearDifference,
    /// As [`Verdict::Clearly`], but more than the parents differed, or whether it did was not written down.
    Probably,
    /// The interval leaves zero out, of several pairs the adjusted probability is small too, and the two were grown side by
    /// side.
    Clearly,
}

/// A difference is said where chance alone would make one as large less often than this.
const CLEARLY: f64 = 0.05;

/// What the means compared are of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Averaged {
    /// Plants.
    Plant,
    /// Means of pods.
    Pod,
}

/// One side of a comparison.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Side {
    /// Code of the group.
    pub id: String,
    /// Plants of the group on record, alive or not.
    pub plants: usize,
    /// Plants with a size at the age.
    pub n: usize,
    /// How many of those were interpolated.
    pub interpolated: usize,
    /// Pods (or clones) they belong to; of seedlings whose pod is not known the sowings.
    pub families: usize,
    /// Whether some of those are sowings whose pod is not known.
    pub some_are_sowings: bool,
    /// Mean age of what was used, months.
    pub age: f64,
    /// Middle size.
    pub median: f64,
    /// Mean size (of plants, or of pod means).
    pub mean: f64,
    /// Standard deviation of plants; `null` for one plant.
    pub sd: Option<f64>,
    /// Mean size if every vague date is stretched to the smallest and the largest sizes; equal when dates are exact.
    pub mean_between: (f64, f64),
}

/// Two groups at another age at which both were read.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct OtherAge {
    /// The age, months.
    pub age: f64,
    /// Plants of both with a size.
    pub n: (usize, usize),
    /// Second mean less first mean, of plants or of pods as in the comparison.
    pub difference: f64,
    /// The same in percent of the smaller mean; `null` when that is not above zero.
    pub percent: Option<f64>,
}

/// A comparison of two groups.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct Comparison {
    /// Codes of the groups.
    pub of: (String, String),
    /// The first without its cross, where both are parts of one cross.
    #[serde(skip)]
    pub(crate) first_within: Option<String>,
    /// The age they are compared at, months; `null` when there is none.
    pub age: Option<f64>,
    /// Both sides; `null` when there is no common age.
    pub sides: Option<(Side, Side)>,
    /// What was averaged.
    pub unit: Averaged,
    /// Second mean less first mean, in the unit of the trait.
    pub difference: Option<f64>,
    /// The same in percent of the smaller mean; `null` when that is not above zero.
    pub percent: Option<f64>,
    /// 95 % limits of the difference.
    pub interval: Option<(f64, f64)>,
    /// Hedges' g, second less first, with 95 % limits; `null` where these and those of the difference do not agree on zero.
    pub g: Option<(f64, (f64, f64))>,
    /// Chance of a difference as large if there is none; adjusted (Holm) when several pairs are compared.
    pub p: Option<f64>,
    /// The difference when every plant is interpolated to exactly the age; `null` where too few can be.
    pub interpolated_difference: Option<f64>,
    /// The other ages at which both were read, earliest first.
    pub other_ages: Vec<OtherAge>,
    /// What else differed.
    pub circumstances: Vec<Circumstance>,
    /// The verdict.
    pub verdict: Verdict,
}

/// A group with its sizes.
#[derive(Clone, Copy)]
pub struct Measured<'m> {
    /// The group.
    pub group: &'m Group,
    /// Its plants with readings.
    pub grown: &'m [Grown],
}

/// Sizes of one side, one value per unit, and the plants behind them.
struct Values {
    used: Vec<(PlantRow, AtAge)>,
    families: BTreeMap<Family, Vec<usize>>,
    scale: Scale,
}

/// Compares two groups at the age asked for, or at their best common age.
pub fn compare(
    registry: &Registry,
    first: Measured,
    second: Measured,
    at: Option<f64>,
) -> Comparison {
    let of = (first.group.id.clone(), second.group.id.clone());
    let age = at.or_else(|| common_age(&[first.grown, second.grown]));
    let both = age.map(|age| {
        let near = |grown: &Grown| grown.at(age);
        let values = |side: Measured| Values::of(registry, side.grown, near);
        (age, values(first), values(second))
    });
    match both {
        Some((age, a, b)) if !a.used.is_empty() && !b.used.is_empty() => {
            told(registry, (first, second), age, (a, b))
        }
        _ => Comparison {
            of,
            first_within: within(first.group, second.group),
            age: at,
            sides: None,
            unit: Averaged::Plant,
            difference: None,
            percent: None,
            interval: None,
            g: None,
            p: None,
            interpolated_difference: None,
            other_ages: Vec::new(),
            circumstances: Vec::new(),
            verdict: Verdict::NoCommonAge,
        },
    }
}

fn leaves_zero_out((low, high): (f64, f64)) -> bool {
    low > 0.0 || high < 0.0
}

impl Comparison {
    /// Whether its own interval, which allows for no other pair, leaves zero out.
    pub(crate) fn leaves_zero_out(&self) -> bool {
        self.interval.is_some_and(leaves_zero_out)
    }

    /// Takes over the probability adjusted for all pairs compared: the words follow it.
    pub(crate) fn allow_for_pairs(&mut self, p: f64) {
        self.p = Some(p);
        if self.leaves_zero_out() && p >= CLEARLY {
            self.verdict = Verdict::NoClearDifference;
        }
    }
}

/// The first group's code without its cross, where the second is a part of the same cross.
fn within(first: &Group, second: &Group) -> Option<String> {
    let (cross, part) = first.part.as_ref()?;
    let same = |(of, _): &(CrossRow, String)| of == cross;
    second.part.as_ref().filter(|part| same(part))?;
    Some(part.clone())
}

fn told(
    registry: &Registry,
    (first, second): (Measured, Measured),
    age: f64,
    (a, b): (Values, Values),
) -> Comparison {
    let whole = |side: Measured| matches!(side.group.kind, GroupKind::Cross | GroupKind::Species);
    let by_pod = (whole(first) || whole(second)) && a.families.len() > 1 && b.families.len() > 1;
    let values = |of: &Values, end: End| of.values(by_pod, end);
    let sides = (side(first, &a, by_pod), side(second, &b, by_pod));
    let difference = sides.1.mean - sides.0.mean;
    let test = welch(
        &values(&b, End::Middle),
        &values(&a, End::Middle),
        Confidence::P95,
    )
    .ok();
    // Each limit with the dates that push it farthest.
    let ranges = |of: &Values| of.ranges(by_pod);
    let interval = welch_of_ranges(&ranges(&b), &ranges(&a), Confidence::P95).ok();
    let interval = interval.map(|of| (of.low, of.high));
    let g = hedges_g(
        &values(&b, End::Middle),
        &values(&a, End::Middle),
        Confidence::P95,
    )
    .ok()
    .filter(|g| g.interval.low.is_finite() && g.interval.high.is_finite())
    // It pools the spread of both sides, and of a few pods its limits may contradict those of the difference.
    .filter(|g| {
        leaves_zero_out((g.interval.low, g.interval.high)) == interval.is_some_and(leaves_zero_out)
    });
    let circumstances = circumstances(registry, &a.read_in(), &b.read_in());
    // Plants stand for themselves within a pod; a cross of one pod cannot be told from its pod.
    let pods_are_enough = by_pod || (!whole(first) && !whole(second));
    let side_by_side = pods_are_enough && circumstances.iter().all(|c| c.alike == Some(true));
    Comparison {
        of: (first.group.id.clone(), second.group.id.clone()),
        first_within: within(first.group, second.group),
        age: Some(age),
        unit: if by_pod {
            Averaged::Pod
        } else {
            Averaged::Plant
        },
        difference: Some(difference),
        percent: percent(difference, sides.0.mean.min(sides.1.mean)),
        verdict: match interval {
            None => Verdict::TooFew,
            Some(limits) if !leaves_zero_out(limits) => Verdict::NoClearDifference,
            Some(_) if side_by_side => Verdict::Clearly,
            Some(_) => Verdict::Probably,
        },
        interval,
        g: g.map(|g| (g.g, (g.interval.low, g.interval.high))),
        p: test.map(|test| test.p),
        interpolated_difference: if off_the_day(&a, age) || off_the_day(&b, age) {
            interpolated(registry, (first, second), age, by_pod)
        } else {
            None
        },
        other_ages: other_ages(registry, (first, second), age, by_pod),
        circumstances,
        sides: Some(sides),
    }
}

/// The difference at every other age at which both groups were read.
fn other_ages(
    registry: &Registry,
    (first, second): (Measured, Measured),
    chosen: f64,
    by_pod: bool,
) -> Vec<OtherAge> {
    let ages = ages_read_in_all(&[first.grown, second.grown]);
    let others = ages.into_iter().filter(|age| (age - chosen).abs() > NEAR);
    let at = |age: f64| {
        let values = |side: Measured| Values::of(registry, side.grown, |grown| grown.at(age));
        let (a, b) = (values(first), values(second));
        let mean = |of: &Values| {
            let units = of.values(by_pod, End::Middle);
            (!units.is_empty()).then(|| units.iter().sum::<f64>() / units.len() as f64)
        };
        let (x, y) = (mean(&a)?, mean(&b)?);
        Some(OtherAge {
            age,
            n: (a.used.len(), b.used.len()),
            difference: y - x,
            percent: percent(y - x, x.min(y)),
        })
    };
    others.filter_map(at).collect()
}

/// The sizes of one group at an age, of plants; `None` when none has a size at it.
pub(crate) fn side_at(registry: &Registry, of: Measured, age: f64) -> Option<Side> {
    let values = Values::of(registry, of.grown, |grown| grown.at(age));
    (!values.used.is_empty()).then(|| side(of, &values, false))
}

/// Whether some reading stands for an age it was not taken at.
fn off_the_day(of: &Values, age: f64) -> bool {
    of.used.iter().any(|(_, at)| (at.age - age).abs() > 1e-6)
}

/// The difference when nobody's reading stands for a neighbouring age.
fn interpolated(
    registry: &Registry,
    (first, second): (Measured, Measured),
    age: f64,
    by_pod: bool,
) -> Option<f64> {
    let exact = |grown: &Grown| {
        let on_the_day = |at: &AtAge| (at.age - age).abs() < 1e-6;
        let read = grown.read_near(age).filter(on_the_day);
        read.or_else(|| grown.interpolated(age))
    };
    let mean = |side: Measured| {
        let values = Values::of(registry, side.grown, exact).values(by_pod, End::Middle);
        describe(&values.into_iter().map(Some).collect::<Vec<_>>()).ok()
    };
    Some(mean(second)?.mean - mean(first)?.mean)
}

/// Which end of the sizes that fit the dates.
#[derive(Clone, Copy)]
enum End {
    Low,
    Middle,
    High,
}

fn pick(size: Interval, scale: Scale, end: End) -> f64 {
    match end {
        End::Low => size.low,
        End::Middle => scale.middle(size.low, size.high),
        End::High => size.high,
    }
}

/// A difference in percent of the smaller mean.
fn percent(difference: f64, smaller: f64) -> Option<f64> {
    (smaller > 0.0).then(|| 100.0 * difference.abs() / smaller)
}

impl Values {
    fn of(registry: &Registry, grown: &[Grown], at: impl Fn(&Grown) -> Option<AtAge>) -> Values {
        let used: Vec<(PlantRow, AtAge)> = grown
            .iter()
            .filter_map(|grown| Some((grown.plant, at(grown)?)))
            .collect();
        let mut families: BTreeMap<Family, Vec<usize>> = BTreeMap::new();
        for (place, (plant, _)) in used.iter().enumerate() {
            families
                .entry(family(registry, *plant))
                .or_default()
                .push(place);
        }
        Values {
            used,
            families,
            scale: grown.first().map_or(Scale::Log, |plant| plant.scale),
        }
    }

    fn read_in(&self) -> Vec<ReadIn> {
        self.used
            .iter()
            .map(|(plant, at)| (*plant, at.sittings))
            .collect()
    }

    /// The sizes that fit the dates, of each plant or of each pod's mean.
    fn ranges(&self, by_pod: bool) -> Vec<Interval> {
        let low = self.values(by_pod, End::Low).into_iter();
        let ends = low.zip(self.values(by_pod, End::High));
        ends.map(|(low, high)| Interval { low, high }).collect()
    }

    /// One value per plant, or per pod.
    fn values(&self, by_pod: bool, end: End) -> Vec<f64> {
        let value = |place: &usize| pick(self.used[*place].1.size, self.scale, end);
        if by_pod {
            let mean = |of: &Vec<usize>| of.iter().map(value).sum::<f64>() / of.len() as f64;
            return self.families.values().map(mean).collect();
        }
        (0..self.used.len()).map(|place| value(&place)).collect()
    }
}

fn side(measured: Measured, values: &Values, by_pod: bool) -> Side {
    let sizes = values.values(false, End::Middle);
    let readings: Vec<Option<f64>> = sizes.iter().copied().map(Some).collect();
    let sd = describe(&readings).ok().and_then(|d| d.sd.ok());
    let mean = |end: End| {
        let units: Vec<Option<f64>> = values.values(by_pod, end).into_iter().map(Some).collect();
        // The same sum as of a sitting: its last bit would otherwise show where a mean ends on a 5.
        describe(&units).map_or(f64::NAN, |of| of.mean)
    };
    let used = &values.used;
    Side {
        id: measured.group.id.clone(),
        plants: measured.group.plants.len(),
        n: used.len(),
        interpolated: used.iter().filter(|(_, at)| !at.as_read).count(),
        families: values.families.len(),
        some_are_sowings: (values.families.keys())
            .any(|(_, batch, _)| matches!(batch, Some(Batch::Sowing(_)))),
        age: used.iter().map(|(_, at)| at.age).sum::<f64>() / used.len() as f64,
        median: quantile(&sizes, 0.5).unwrap_or(sizes[0]),
        mean: mean(End::Middle),
        sd,
        mean_between: (mean(End::Low), mean(End::High)),
    }
}
