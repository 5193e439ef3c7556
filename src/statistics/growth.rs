//! How large was a plant at an age, and how fast did it grow?
//!
//! Between two readings the size runs straight on its scale, for lengths the logarithm; before the first and after the
//! last nothing is said.
//! Ages may be ranges, because sowing or reading dates may be: the answer is then the range of sizes that fits.
//! Growth rates are differences of logarithms per unit of age, and groups are averaged over the logarithms, never the
//! logarithm of an average (Hunt 1982, from memory; Hoffmann & Poorter 2002). Curves are in `curves`.

use super::describe::{mean, variance};
use super::distribution::t_upper_quantile;
use super::error::{StatisticsError, logs, require};
use super::interval::{Confidence, Interval};
use super::scale::Scale;

/// A size at an age known exactly, or as exactly as the day of sowing.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Reading {
    /// Age in any unit, the same for all readings.
    pub age: f64,
    /// Size; above zero where the scale is the logarithm.
    pub size: f64,
}

/// A size at an age known only as a range.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RangedReading {
    /// Earliest and latest possible age.
    pub age: Interval,
    /// Size; above zero where the scale is the logarithm.
    pub size: f64,
}

/// Readings in order of age on the scale; readings of one age are averaged on it.
fn ordered(readings: &[Reading], scale: Scale) -> Result<Vec<(f64, f64)>, StatisticsError> {
    let ages: Vec<f64> = readings.iter().map(|reading| reading.age).collect();
    let sizes: Vec<f64> = readings.iter().map(|reading| reading.size).collect();
    require(&ages, 1)?;
    let values = scale.values(&sizes, 1)?;
    let mut points: Vec<(f64, f64)> = ages.into_iter().zip(values).collect();
    points.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let one_age = |same: &[(f64, f64)]| {
        (
            same[0].0,
            same.iter().map(|p| p.1).sum::<f64>() / same.len() as f64,
        )
    };
    Ok(points.chunk_by(|a, b| a.0 == b.0).map(one_age).collect())
}

/// The size at an age, or the range of sizes over a range of ages: where only the sowing date is vague, all ages of a
/// plant shift together, and a fixed age is a range on the calendar of its readings.
///
/// # Errors
/// No reading, one not finite or not on the scale, or any part of the range before the first or after the last reading.
pub fn size_at(
    readings: &[Reading],
    age: Interval,
    scale: Scale,
) -> Result<Interval, StatisticsError> {
    let points = ordered(readings, scale)?;
    require(&[age.low, age.high], 2)?;
    let (first, last) = (points[0].0, points[points.len() - 1].0);
    if age.low < first || age.high > last || age.low > age.high {
        return Err(StatisticsError::Outside { first, last });
    }
    // The size runs straight on the scale between readings, so extremes lie at the ends of the range or at a reading within it.
    let within = points
        .iter()
        .filter(|p| age.low < p.0 && p.0 < age.high)
        .map(|p| p.1);
    let values = [along(&points, age.low), along(&points, age.high)]
        .into_iter()
        .chain(within);
    let range = values.fold(
        Interval {
            low: f64::INFINITY,
            high: f64::NEG_INFINITY,
        },
        widened,
    );
    Ok(range.map(|value| scale.size(value)))
}

fn widened(range: Interval, value: f64) -> Interval {
    Interval {
        low: range.low.min(value),
        high: range.high.max(value),
    }
}

/// The value on the scale at an age between the first and the last point.
fn along(points: &[(f64, f64)], age: f64) -> f64 {
    let after = points.partition_point(|p| p.0 < age).min(points.len() - 1);
    if after == 0 || points[after].0 == age {
        return points[after].1;
    }
    between(points[after - 1], points[after], age)
}

fn between(from: (f64, f64), to: (f64, f64), age: f64) -> f64 {
    from.1 + (to.1 - from.1) * ((age - from.0) / (to.0 - from.0))
}

/// The range of sizes at an age when the age of each reading is itself a range, independent of the others.
///
/// # Errors
/// As [`size_at`] (also where the age may lie outside), or ranges of two readings that overlap, so that their order
/// is not known.
pub fn size_at_ranged(
    readings: &[RangedReading],
    age: f64,
    scale: Scale,
) -> Result<Interval, StatisticsError> {
    let mut sorted = readings.to_vec();
    sorted.sort_by(|a, b| a.age.low.total_cmp(&b.age.low));
    let sizes: Vec<f64> = sorted.iter().map(|reading| reading.size).collect();
    let values = scale.values(&sizes, 1)?;
    let limits: Vec<f64> = sorted
        .iter()
        .flat_map(|reading| [reading.age.low, reading.age.high])
        .collect();
    require(&limits, 2)?;
    require(&[age], 1)?;
    if limits
        .windows(2)
        .skip(1)
        .step_by(2)
        .any(|pair| pair[0] >= pair[1])
    {
        return Err(StatisticsError::OrderUnknown);
    }
    let (first, last) = (limits[1], limits[limits.len() - 2]);
    if age < first || age > last {
        return Err(StatisticsError::Outside { first, last });
    }
    let mut range = Interval {
        low: f64::INFINITY,
        high: f64::NEG_INFINITY,
    };
    for at in 0..sorted.len() {
        if sorted[at].age.holds(age) {
            range = widened(range, values[at]);
        }
        if at + 1 < sorted.len() {
            for (a, b) in corners(sorted[at].age, sorted[at + 1].age, age) {
                range = widened(range, between((a, values[at]), (b, values[at + 1]), age));
            }
        }
    }
    Ok(range.map(|value| scale.size(value)))
}

/// Extreme ages of two neighbouring readings that have the asked age between them; the value is monotone in either.
fn corners(from: Interval, to: Interval, age: f64) -> Vec<(f64, f64)> {
    if age < from.low || age > to.high {
        return Vec::new();
    }
    let (latest_from, earliest_to) = (from.high.min(age), to.low.max(age));
    [from.low, latest_from]
        .into_iter()
        .flat_map(|a| [earliest_to, to.high].map(|b| (a, b)))
        .collect()
}

/// Relative growth rate between two readings: `(ln L₂ − ln L₁)/(t₂ − t₁)`, per unit of age.
///
/// # Errors
/// A size not above zero, an age not finite, or readings of the same age.
pub fn growth_rate(from: Reading, to: Reading) -> Result<f64, StatisticsError> {
    require(&[from.age, to.age], 2)?;
    let logs = logs(&[from.size, to.size], 2)?;
    if from.age == to.age {
        return Err(StatisticsError::NoSpread);
    }
    Ok((logs[1] - logs[0]) / (to.age - from.age))
}

/// A mean growth rate.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct MeanRate {
    /// Plants behind it.
    pub n: usize,
    /// Mean rate per unit of age.
    pub mean: f64,
    /// Its standard error.
    pub standard_error: f64,
    /// Student's limits.
    pub interval: Interval,
}

/// The mean of rates of plants measured twice.
///
/// # Errors
/// Fewer than two rates, or one not finite.
pub fn mean_rate(rates: &[f64], confidence: Confidence) -> Result<MeanRate, StatisticsError> {
    require(rates, 2)?;
    let n = rates.len() as f64;
    let (mean, standard_error) = (mean(rates), libm::sqrt(variance(rates) / n));
    let half = t_upper_quantile(confidence.tail(), n - 1.0) * standard_error;
    Ok(MeanRate {
        n: rates.len(),
        mean,
        standard_error,
        interval: Interval::around(mean, half),
    })
}
