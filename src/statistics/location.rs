//! Is one pod or cross larger than another, and by how much?
//!
//! Two groups: Welch's *t* with its interval, and Hedges' *g* with exact correction and limits by the noncentral
//! *t*. Several tests at once: Holm's adjustment. Tests on ranks are in `ranks`, differences in spread in `variance`.

use super::describe::{mean, squares, variance};
use super::distribution::{t_two_sided, t_upper_quantile};
use super::error::{StatisticsError, require};
use super::interval::{Confidence, Interval};
use super::noncentral::noncentrality;

/// A difference of two means, first less second, in the unit of the values.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Difference {
    /// Mean of the first less mean of the second.
    pub difference: f64,
    /// Limits of the difference.
    pub interval: Interval,
    /// Welch's statistic.
    pub t: f64,
    /// Its degrees of freedom (Satterthwaite).
    pub df: f64,
    /// Probability of a difference at least as large, either way, if there is none.
    pub p: f64,
}

/// Welch's comparison of two means; spreads may differ (Welch 1947).
///
/// # Errors
/// Fewer than two values in a group, one not finite, or no spread in both.
pub fn welch(
    first: &[f64],
    second: &[f64],
    confidence: Confidence,
) -> Result<Difference, StatisticsError> {
    require(first, 2)?;
    require(second, 2)?;
    let part = |values: &[f64]| variance(values) / values.len() as f64;
    let (a, b) = (part(first), part(second));
    if a + b <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let df =
        (a + b) * (a + b) / (a * a / (first.len() - 1) as f64 + b * b / (second.len() - 1) as f64);
    let (difference, error) = (mean(first) - mean(second), libm::sqrt(a + b));
    let t = difference / error;
    let interval = Interval::around(difference, error * t_upper_quantile(confidence.tail(), df));
    Ok(Difference {
        difference,
        interval,
        t,
        df,
        p: t_two_sided(t, df),
    })
}

/// A difference of means in standard deviations.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Standardised {
    /// Difference over the pooled standard deviation, uncorrected (Cohen's *d*).
    pub d: f64,
    /// The same without its small-sample bias (Hedges 1981).
    pub g: f64,
    /// Limits of the true standardised difference, by the noncentral *t*.
    pub interval: Interval,
}

/// Hedges' *g*, first group less second.
///
/// # Errors
/// Fewer than two values in a group, one not finite, or no spread in both.
pub fn hedges_g(
    first: &[f64],
    second: &[f64],
    confidence: Confidence,
) -> Result<Standardised, StatisticsError> {
    require(first, 2)?;
    require(second, 2)?;
    let df = (first.len() + second.len() - 2) as f64;
    let pooled = libm::sqrt((squares(first) + squares(second)) / df);
    if pooled <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let d = (mean(first) - mean(second)) / pooled;
    let (n, m) = (first.len() as f64, second.len() as f64);
    let scale = libm::sqrt(n * m / (n + m));
    let limit = |p: f64| noncentrality(d * scale, df, p) / scale;
    let interval = Interval {
        low: limit(1.0 - confidence.tail()),
        high: limit(confidence.tail()),
    };
    Ok(Standardised {
        d,
        g: d * hedges_correction(df),
        interval,
    })
}

/// Hedges' exact correction `Γ(m/2) / (√(m/2) Γ((m−1)/2))` for `m >= 2` degrees of freedom.
pub fn hedges_correction(m: f64) -> f64 {
    libm::exp(libm::lgamma(0.5 * m) - libm::lgamma(0.5 * (m - 1.0))) / libm::sqrt(0.5 * m)
}

/// Probabilities adjusted for having made all these tests (Holm 1979), in the given order, each at most 1.
pub fn holm(p: &[f64]) -> Vec<f64> {
    let mut order: Vec<usize> = (0..p.len()).collect();
    order.sort_by(|&a, &b| p[a].total_cmp(&p[b]));
    let (mut adjusted, mut highest) = (vec![0.0; p.len()], 0.0_f64);
    for (before, &at) in order.iter().enumerate() {
        highest = highest.max(((p.len() - before) as f64 * p[at]).min(1.0));
        adjusted[at] = highest;
    }
    adjusted
}
