//! Does one cross vary more than another?
//!
//! Brown & Forsythe's test (1974); the ratio of spreads with limits. On which scale lengths, counts and numbers are set
//! against each other is the question of `spread_scale`; how many plants a given ratio would need, of `sample_size`.

use super::describe::{ln_cv, mean, sorted_quantile, spread, squares};
use super::distribution::{f_upper, t_upper_quantile};
use super::error::{StatisticsError, require, require_count};
use super::interval::{Confidence, Interval};

/// A variance-ratio test.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RatioOfVariances {
    /// The statistic.
    pub f: f64,
    /// Degrees of freedom above and below the line.
    pub df: (f64, f64),
    /// Probability of a larger statistic if all groups vary alike.
    pub p: f64,
}

/// Brown & Forsythe's test of equal spread (1974): one-way analysis of the distances from the group's median, which
/// holds its rate when values are skewed.
///
/// # Errors
/// Fewer than two groups, a group of fewer than two values, a value not finite, or no spread in any group.
pub fn equal_spread(groups: &[Vec<f64>]) -> Result<RatioOfVariances, StatisticsError> {
    require_count(groups.len(), 2)?;
    let mut distances = Vec::with_capacity(groups.len());
    for group in groups {
        require(group, 2)?;
        distances.push(from_median(group));
    }
    one_way(&distances)
}

fn from_median(group: &[f64]) -> Vec<f64> {
    let mut sorted = group.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = sorted_quantile(&sorted, 0.5);
    group.iter().map(|v| (v - middle).abs()).collect()
}

/// One-way analysis of variance.
///
/// # Errors
/// Fewer than two groups, an empty group, no plant more than groups, a value not finite, or no spread within groups.
pub fn one_way(groups: &[Vec<f64>]) -> Result<RatioOfVariances, StatisticsError> {
    let all: Vec<f64> = groups.concat();
    require(&all, groups.len() + 1)?;
    if groups.len() < 2 || groups.iter().any(Vec::is_empty) {
        return Err(StatisticsError::TooFew {
            found: groups.iter().filter(|g| !g.is_empty()).count(),
            needed: 2,
        });
    }
    let df = ((groups.len() - 1) as f64, (all.len() - groups.len()) as f64);
    let grand = mean(&all);
    let within: f64 = groups.iter().map(|group| squares(group)).sum();
    let between: f64 = groups
        .iter()
        .map(|g| g.len() as f64 * (mean(g) - grand) * (mean(g) - grand))
        .sum();
    if within <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let f = (between / df.0) / (within / df.1);
    Ok(RatioOfVariances {
        f,
        df,
        p: f_upper(f, df.0, df.1),
    })
}

/// A ratio of spreads on the log scale, first over second: 0 is alike, 0.69 is twice.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct LogRatio {
    /// The natural logarithm of the ratio, corrected for small samples.
    pub estimate: f64,
    /// Its standard error.
    pub standard_error: f64,
    /// Limits by Student's *t* with `n + m - 2` degrees of freedom: the normal limits often printed cover 92 % of the
    /// time at five plants each where 95 % is stated, these 96 %.
    pub interval: Interval,
}

impl LogRatio {
    fn new(estimate: f64, standard_error: f64, df: f64, confidence: Confidence) -> Self {
        let half = t_upper_quantile(confidence.tail(), df) * standard_error;
        Self {
            estimate,
            standard_error,
            interval: Interval::around(estimate, half),
        }
    }

    /// The ratio itself.
    pub fn ratio(&self) -> f64 {
        libm::exp(self.estimate)
    }

    /// The limits of the ratio itself.
    pub fn ratio_interval(&self) -> Interval {
        self.interval.map(libm::exp)
    }
}

/// Log ratio of standard deviations, lnVR (Nakagawa et al. 2015, from memory).
///
/// # Errors
/// A group of fewer than two values, a value not finite, or a group without spread.
pub fn ln_variability_ratio(
    first: &[f64],
    second: &[f64],
    confidence: Confidence,
) -> Result<LogRatio, StatisticsError> {
    let (a, b) = (spread(first)?, spread(second)?);
    let half = |values: &[f64]| 0.5 / (values.len() as f64 - 1.0);
    let estimate = libm::log(a / b) + half(first) - half(second);
    let df = (first.len() + second.len() - 2) as f64;
    Ok(LogRatio::new(
        estimate,
        libm::sqrt(half(first) + half(second)),
        df,
        confidence,
    ))
}

/// Log ratio of coefficients of variation, lnCVR (Nakagawa et al. 2015, from memory): spread allowing for size.
///
/// # Errors
/// As [`ln_variability_ratio`], or a mean that is not above zero.
pub fn ln_cv_ratio(
    first: &[f64],
    second: &[f64],
    confidence: Confidence,
) -> Result<LogRatio, StatisticsError> {
    let ((a, a_error), (b, b_error)) = (ln_cv(first)?, ln_cv(second)?);
    let df = (first.len() + second.len() - 2) as f64;
    Ok(LogRatio::new(
        a - b,
        libm::sqrt(a_error * a_error + b_error * b_error),
        df,
        confidence,
    ))
}
