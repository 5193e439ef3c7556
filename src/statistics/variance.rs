//! Does one cross vary more than another?
//!
//! Brown & Forsythe's test (1974); the ratio of spreads with limits. On which scale lengths, counts and numbers are set
//! against each other is the question of `spread_scale`. When types of cross are compared the pod is
//! the unit, not the seedling: [`pods_by_spread`]. How many plants a given ratio would need is in `sample_size`.

use super::describe::{ln_cv, mean, sorted_quantile, spread, squares};
use super::distribution::{f_upper, t_upper_quantile};
use super::error::{StatisticsError, require};
use super::interval::{Confidence, Interval};
use super::location::{Difference, welch};

/// What distances are taken from.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Centre {
    /// The group median (Brown & Forsythe 1974): holds its rate when values are skewed.
    Median,
    /// The group mean (Levene 1960): rejects too often when values are skewed.
    Mean,
}

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

/// Brown & Forsythe's or Levene's test of equal spread.
///
/// # Errors
/// Fewer than two groups, a group of fewer than two values, a value not finite, or no spread in any group.
pub fn equal_spread(
    groups: &[Vec<f64>],
    centre: Centre,
) -> Result<RatioOfVariances, StatisticsError> {
    if groups.len() < 2 {
        return Err(StatisticsError::TooFew {
            found: groups.len(),
            needed: 2,
        });
    }
    let mut distances = Vec::with_capacity(groups.len());
    for group in groups {
        require(group, 2)?;
        distances.push(from_centre(group, centre));
    }
    one_way(&distances)
}

fn from_centre(group: &[f64], centre: Centre) -> Vec<f64> {
    let mut sorted = group.to_vec();
    sorted.sort_by(f64::total_cmp);
    let middle = match centre {
        Centre::Median => sorted_quantile(&sorted, 0.5),
        Centre::Mean => mean(group),
    };
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

/// Fisher's ratio of two variances, first over second, with its two-sided probability. Right for normal values only.
///
/// # Errors
/// A group of fewer than two values, a value not finite, or a group without spread.
pub fn variance_ratio(first: &[f64], second: &[f64]) -> Result<RatioOfVariances, StatisticsError> {
    let (a, b) = (spread(first)?, spread(second)?);
    let (f, df) = (
        a * a / (b * b),
        ((first.len() - 1) as f64, (second.len() - 1) as f64),
    );
    // Each tail straight, not as 1 less the other, so that small probabilities keep their digits.
    let (above, below) = (f_upper(f, df.0, df.1), f_upper(1.0 / f, df.1, df.0));
    Ok(RatioOfVariances {
        f,
        df,
        p: (2.0 * above.min(below)).min(1.0),
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

/// Compares two types of cross by the spread of their pods, pods being the unit: Welch on bias-corrected `ln s`,
/// first less second. A pod is given as its sibling's values; pods of fewer than three plants or without spread are
/// left out, and how many are left in each type is returned beside the difference.
///
/// # Errors
/// Fewer than two usable pods in a type, a value not finite, or all pods exactly alike.
pub fn pods_by_spread(
    first: &[Vec<f64>],
    second: &[Vec<f64>],
    confidence: Confidence,
) -> Result<(Difference, (usize, usize)), StatisticsError> {
    let (a, b) = (ln_spreads(first)?, ln_spreads(second)?);
    Ok((welch(&a, &b, confidence)?, (a.len(), b.len())))
}

fn ln_spreads(pods: &[Vec<f64>]) -> Result<Vec<f64>, StatisticsError> {
    let mut kept = Vec::with_capacity(pods.len());
    for pod in pods.iter().filter(|pod| pod.len() >= 3) {
        match spread(pod) {
            Ok(sd) => kept.push(libm::log(sd) + 0.5 / (pod.len() as f64 - 1.0)),
            Err(StatisticsError::NoSpread) => {}
            Err(other) => return Err(other),
        }
    }
    Ok(kept)
}
