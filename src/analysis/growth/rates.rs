//! How fast: relative growth rates of plants and groups, and the curve their sizes support.
//!
//! A plant's rate is the slope of the logarithm of size over time, of a count or number the slope of the value itself:
//! between its two readings, or through all of them from three on. A group's rate is the mean of its plants' rates. The curve of a group runs through the means of the
//! logarithms of the plants that lived to the last sitting, so that deaths do not bend it.

use crate::analysis::growth::grown::{Grown, Point};
use crate::analysis::growth::typical::typical;
use crate::analysis::growth::window::SHORTEST;
use crate::observation::moment::NEAR;
use crate::observation::months::{MONTH, months};
use crate::observation::provenance::sown;
use crate::record::Potting;
use crate::registry::Registry;
use crate::statistics::curves::{Shape, fit_all};
use crate::statistics::growth::{Reading, mean_rate};
use crate::statistics::trend;
use crate::statistics::{Confidence, Interval, Scale};
use serde::Serialize;

/// The rate of one plant.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct PlantRate {
    /// Code of the plant.
    pub id: String,
    /// Readings behind it.
    pub readings: usize,
    /// First and last size, in the unit of the trait.
    pub sizes: (f64, f64),
    /// Ages of those, months from sowing, each the least and the greatest that the dates allow; `null` where one is not known.
    pub ages: Option<[(f64, f64); 2]>,
    /// Growth of the logarithm per month, of a count or number of the value itself; `null` with readings of one age.
    pub rate: Option<f64>,
    /// Least and greatest rate that the days of the readings allow; `null` where they are exact, or without a rate.
    pub rate_between: Option<(f64, f64)>,
    /// Whether there is no rate because the days of the readings are not known well enough.
    #[serde(skip)]
    pub(crate) is_undated: bool,
    /// Pots moved into between first and last reading.
    pub pot_moves: Vec<String>,
    /// Ages at those moves, months; moves of plants without a dated sowing left out.
    pub moved_at: Vec<f64>,
}

/// The rate of a group.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct RateRow {
    /// Plants with a rate.
    pub n: usize,
    /// Mean of their rates, per month.
    pub mean: f64,
    /// Standard error of the mean; `null` for one plant.
    pub standard_error: Option<f64>,
    /// 95 % limits of the mean.
    pub interval: Option<(f64, f64)>,
    /// Least and greatest mean that the days of the readings allow; `null` where they are exact.
    pub mean_between: Option<(f64, f64)>,
    /// Earliest first and latest last age, months, each the least and the greatest that the dates allow.
    pub between_ages: Option<[(f64, f64); 2]>,
    /// Whether plants were followed over ages more than a month apart, so that their rates mean different ages.
    pub uneven: bool,
}

/// A fitted curve.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct CurveRow {
    /// Its shape.
    pub shape: Shape,
    /// Parameters with their standard errors.
    pub parameters: Vec<ParameterRow>,
    /// Small-sample information criterion; the least of the supported curves is chosen.
    pub aicc: Option<f64>,
    /// Whether the readings support it.
    pub identified: bool,
    /// First and last age it may be read at, months.
    pub between_ages: (f64, f64),
    /// Age and size along it, for drawing.
    pub points: Vec<(f64, f64)>,
}

/// A parameter of a curve.
#[derive(Clone, PartialEq, Debug, Serialize)]
pub struct ParameterRow {
    /// Its letter in the formula.
    pub name: &'static str,
    /// Its value, with ages in months.
    pub value: f64,
    /// Its standard error; `null` where the readings say nothing about it.
    pub standard_error: Option<f64>,
}

/// The rate of one plant over all its readings.
pub fn plant_rate(registry: &Registry, grown: &Grown) -> PlantRate {
    let first = &grown.points[0];
    let last = &grown.points[grown.points.len() - 1];
    let moves = pot_moves(registry, grown);
    let allowed = slopes_allowed(grown);
    let bounded = |point: &&Point| point.when.is_bounded();
    let exact = grown
        .points
        .iter()
        .filter(bounded)
        .all(|point| point.when.is_exact());
    let all_exact = grown.points.iter().all(|point| point.when.is_exact());
    let age = |on: &str| {
        let (least, most) = months(sown(registry, grown.plant), registry.when(on))?;
        Some((least + most) / 2.0)
    };
    PlantRate {
        id: registry.code(grown.plant),
        moved_at: moves.iter().filter_map(|potting| age(potting.on)).collect(),
        readings: grown.points.len(),
        sizes: (first.size, last.size),
        ages: first.age.zip(last.age).map(<[_; 2]>::from),
        rate: allowed.and(slope(grown)),
        rate_between: allowed.filter(|_| !exact),
        is_undated: allowed.is_none() && !all_exact && grown.points.len() > 1,
        pot_moves: moves
            .iter()
            .map(|potting| format!("{} {}", potting.on, &*potting.pot))
            .collect(),
    }
}

/// Growth per month on the scale of the trait, with every reading in the middle of the days it may be of.
fn slope(grown: &Grown) -> Option<f64> {
    let readings = grown.points.iter().filter_map(|point| {
        Some(Reading {
            age: point.month()?,
            size: point.size,
        })
    });
    trend::slope(readings, grown.scale).ok()
}

/// The least and the greatest slope that the days of the readings allow. `None` for readings of one age, since a second look shows the error of a reading and no growth, and where days that are not exact may be less than [`SHORTEST`]
/// apart, since next to nothing is then known of the rate.
pub(super) fn slopes_allowed(grown: &Grown) -> Option<(f64, f64)> {
    let dated: Vec<&Point> = grown
        .points
        .iter()
        .filter(|point| point.when.is_bounded())
        .collect();
    let (first, last) = (dated.first()?, dated.last()?);
    let apart = f64::from(last.when.first.0) - f64::from(first.when.last.0);
    let is_of_one_age = apart <= NEAR * MONTH;
    let all_exact = dated.iter().all(|point| point.when.is_exact());
    if is_of_one_age || (apart < SHORTEST * MONTH && !all_exact) {
        return None;
    }
    let readings = dated.iter().map(|point| {
        let [low, high] = [point.when.first, point.when.last].map(|day| f64::from(day.0) / MONTH);
        (Interval { low, high }, point.size)
    });
    let readings: Vec<(Interval, f64)> = readings.collect();
    let between = trend::slope_between(&readings, grown.scale).ok()?;
    Some((between.low, between.high))
}

/// Moves surely after the first and before the last reading.
fn pot_moves<'r, 't>(registry: &'r Registry<'t>, grown: &Grown) -> Vec<&'r Potting<'t>> {
    let first = grown.points[0].when;
    let last = grown.points[grown.points.len() - 1].when;
    let within = |potting: &&Potting| {
        let when = registry.when(potting.on);
        first.surely_before(when) && when.surely_before(last)
    };
    registry.pots(grown.plant).iter().filter(within).collect()
}

/// The rate of a group; `None` when no plant has one.
pub fn group_rate(plants: &[PlantRate]) -> Option<RateRow> {
    let followed: Vec<&PlantRate> = plants.iter().filter(|plant| plant.rate.is_some()).collect();
    let rates: Vec<f64> = followed.iter().filter_map(|plant| plant.rate).collect();
    let ages = followed.iter().filter_map(|plant| plant.ages);
    let firsts = ages.clone().map(|[first, _]| first);
    let lasts = ages.map(|[_, last]| last);
    let earliest = firsts
        .clone()
        .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let latest = lasts
        .clone()
        .max_by(|a, b| a.1.total_cmp(&b.1).then(a.0.total_cmp(&b.0)));
    let mean = mean_rate(&rates, Confidence::P95).ok();
    let exact = |plant: &PlantRate| plant.rate.map(|rate| (rate, rate));
    let allowed = |plant: &&PlantRate| plant.rate_between.or(exact(plant));
    let allowed: Vec<(f64, f64)> = followed.iter().filter_map(allowed).collect();
    let mean_of =
        |end: fn(&(f64, f64)) -> f64| allowed.iter().map(end).sum::<f64>() / rates.len() as f64;
    let in_doubt = followed.iter().any(|plant| plant.rate_between.is_some());
    Some(RateRow {
        n: rates.len(),
        mean: mean.map_or(*rates.first()?, |mean| mean.mean),
        standard_error: mean.map(|mean| mean.standard_error),
        interval: mean.map(|mean| (mean.interval.low, mean.interval.high)),
        mean_between: in_doubt.then(|| (mean_of(|of| of.0), mean_of(|of| of.1))),
        between_ages: earliest.zip(latest).map(<[_; 2]>::from),
        uneven: apart(firsts) > 1.0 || apart(lasts) > 1.0,
    })
}

/// How far the middles of some ages are apart, months; 0 for none.
fn apart(ages: impl Iterator<Item = (f64, f64)>) -> f64 {
    let middles = ages.map(|(least, most)| (least + most) / 2.0);
    let ends = middles.fold((f64::INFINITY, f64::NEG_INFINITY), |(least, most), age| {
        (least.min(age), most.max(age))
    });
    (ends.1 - ends.0).max(0.0)
}

/// The curves through a group's sizes, the chosen one first; empty with fewer than three ages, and for counts and numbers,
/// since the curves are of lengths.
pub fn curves(grown: &[Grown]) -> Vec<CurveRow> {
    if grown.iter().any(|plant| plant.scale == Scale::Plain) {
        return Vec::new();
    }
    let typical = typical(grown);
    let readings = typical.iter().map(|of| Reading {
        age: of.age,
        size: of.size,
    });
    let readings: Vec<Reading> = readings.collect();
    let (Some(first), Some(last)) = (readings.first(), readings.last()) else {
        return Vec::new();
    };
    let between = (first.age, last.age);
    let fits = fit_all(&readings).unwrap_or_default();
    let row = |fit: &crate::statistics::curves::CurveFit| CurveRow {
        shape: fit.shape,
        parameters: letters(fit.shape)
            .iter()
            .zip(fit.parameters.iter().zip(&fit.standard_errors))
            .map(|(&name, (&value, &error))| ParameterRow {
                name,
                value,
                standard_error: error.is_finite().then_some(error),
            })
            .collect(),
        aicc: fit.aicc.filter(|aicc| aicc.is_finite()),
        identified: fit.identified,
        between_ages: between,
        points: along(between)
            .map(|age| (age, fit.size_at(age)))
            .filter(|point| point.1.is_finite())
            .collect(),
    };
    fits.iter().map(row).collect()
}

/// Ages from first to last in forty steps.
fn along((first, last): (f64, f64)) -> impl Iterator<Item = f64> {
    (0..=40).map(move |step| first + (last - first) * f64::from(step) / 40.0)
}

fn letters(shape: Shape) -> &'static [&'static str] {
    match shape {
        Shape::Exponential => &["a", "r"],
        _ => &["A", "b", "k"],
    }
}
