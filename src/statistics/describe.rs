//! What does one trait look like within one pod?
//!
//! Count, mean, spread, middle and extremes of a measure. Quartiles are of type 7 (Hyndman & Fan 1996: linear between
//! order statistics, the default of most software). Each figure that may be lacking says why; a reading nobody took
//! is counted as missing and never becomes zero. Comparisons of pods are in `location` and `variance`.

use super::distribution::t_upper_quantile;
use super::error::{StatisticsError, require};
use super::interval::{Confidence, Interval};

/// A measure within one pod, in the unit of the readings.
#[derive(Clone, PartialEq, Debug)]
pub struct Description {
    /// Readings present.
    pub n: usize,
    /// Plants without a reading.
    pub missing: usize,
    /// Smallest reading.
    pub smallest: f64,
    /// Largest reading.
    pub largest: f64,
    /// Arithmetic mean.
    pub mean: f64,
    /// The middle reading.
    pub median: f64,
    /// Lower and upper quartile, type 7.
    pub quartiles: (f64, f64),
    /// Standard deviation with divisor `n - 1`; needs two readings.
    pub sd: Result<f64, StatisticsError>,
    /// Standard deviation over mean, a ratio; needs two readings and a mean above zero.
    pub cv: Result<f64, StatisticsError>,
}

/// Describes the readings present.
///
/// # Errors
/// No reading at all, or one that is not finite.
pub fn describe(readings: &[Option<f64>]) -> Result<Description, StatisticsError> {
    let mut values: Vec<f64> = readings.iter().flatten().copied().collect();
    require(&values, 1)?;
    values.sort_unstable_by(f64::total_cmp);
    let (n, mean) = (values.len(), mean(&values));
    let sd = sample_sd(&values);
    Ok(Description {
        n,
        missing: readings.len() - n,
        smallest: values[0],
        largest: values[n - 1],
        mean,
        median: sorted_quantile(&values, 0.5),
        quartiles: (
            sorted_quantile(&values, 0.25),
            sorted_quantile(&values, 0.75),
        ),
        sd,
        cv: sd.and_then(|sd| {
            if mean > 0.0 {
                Ok(sd / mean)
            } else {
                Err(StatisticsError::NotPositive)
            }
        }),
    })
}

/// Arithmetic mean of at least one value.
pub(crate) fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// Sum of squared distances from the mean; exactly 0 if all values are equal.
pub(crate) fn squares(values: &[f64]) -> f64 {
    if values.windows(2).all(|pair| pair[0] == pair[1]) {
        return 0.0;
    }
    let centre = mean(values);
    values.iter().map(|v| (v - centre) * (v - centre)).sum()
}

/// Variance with divisor `n - 1`, at least two values.
pub(crate) fn variance(values: &[f64]) -> f64 {
    squares(values) / (values.len() - 1) as f64
}

/// Standard deviation with divisor `n - 1`.
///
/// # Errors
/// Fewer than two values, or one that is not finite.
pub fn sample_sd(values: &[f64]) -> Result<f64, StatisticsError> {
    require(values, 2)?;
    Ok(libm::sqrt(variance(values)))
}

/// The quantile of type 7 at `share` (0 to 1).
///
/// # Errors
/// No value, one that is not finite, or `share` out of range.
pub fn quantile(values: &[f64], share: f64) -> Result<f64, StatisticsError> {
    require(values, 1)?;
    super::error::require_within(share, 0.0, 1.0)?;
    let mut sorted = values.to_vec();
    sorted.sort_unstable_by(f64::total_cmp);
    Ok(sorted_quantile(&sorted, share))
}

pub(crate) fn sorted_quantile(sorted: &[f64], share: f64) -> f64 {
    let place = share * (sorted.len() - 1) as f64;
    let below = libm::floor(place) as usize;
    let above = (below + 1).min(sorted.len() - 1);
    sorted[below] + (place - below as f64) * (sorted[above] - sorted[below])
}

/// Student's interval for the mean, in the unit of the values.
///
/// # Errors
/// Fewer than two values, one not finite, or all equal.
pub fn mean_interval(values: &[f64], confidence: Confidence) -> Result<Interval, StatisticsError> {
    let sd = spread(values)?;
    let n = values.len() as f64;
    Ok(Interval::around(
        mean(values),
        t_upper_quantile(confidence.tail(), n - 1.0) * sd / libm::sqrt(n),
    ))
}

/// The interval for the coefficient of variation, by Student's *t* on its logarithm.
///
/// `ln CV + 1/(2(n-1))` plus and minus *t* times `√(1/(2(n-1)) + CV²/n)` (Nakagawa et al. 2015, from memory), with
/// `2(n-1)` degrees of freedom. With `n - 1` it covers 98 % at n = 5 where 95 % is stated, with the normal quantile
/// 93 %; with `2(n-1)` simulated coverage is 93 to 97 % for n = 3 to 40 and CV up to 0.4, normal or log-normal.
///
/// # Errors
/// Fewer than three values, one not finite, a mean of zero or below, or all equal.
pub fn cv_interval(values: &[f64], confidence: Confidence) -> Result<Interval, StatisticsError> {
    require(values, 3)?;
    let (centre, error) = ln_cv(values)?;
    let df = 2.0 * (values.len() as f64 - 1.0);
    Ok(Interval::around(centre, t_upper_quantile(confidence.tail(), df) * error).map(libm::exp))
}

/// Bias-corrected `ln CV` and its standard error; at least two values.
pub(crate) fn ln_cv(values: &[f64]) -> Result<(f64, f64), StatisticsError> {
    let sd = spread(values)?;
    let (n, centre) = (values.len() as f64, mean(values));
    if centre <= 0.0 {
        return Err(StatisticsError::NotPositive);
    }
    let (cv, half) = (sd / centre, 0.5 / (n - 1.0));
    Ok((libm::log(cv) + half, libm::sqrt(half + cv * cv / n)))
}

/// Standard deviation above zero, or why there is none.
pub(crate) fn spread(values: &[f64]) -> Result<f64, StatisticsError> {
    let sd = sample_sd(values)?;
    if sd > 0.0 {
        Ok(sd)
    } else {
        Err(StatisticsError::NoSpread)
    }
}
