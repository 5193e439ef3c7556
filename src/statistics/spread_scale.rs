//! On which scale is the spread of two crosses compared?
//!
//! Sizes spread in proportion to themselves, so lengths are compared on the logarithm and by coefficients of variation.
//! A count may be zero and spreads with the root of its mean: the square root of the count and three eighths spreads
//! alike at every mean from about four on, and nearly so below (Anscombe 1948, from memory). Plain numbers, which may be
//! zero or negative, stay as they stand.

use super::describe::{mean, sample_sd};
use super::error::{StatisticsError, logs, require};
use super::interval::Confidence;
use super::variance::{
    LogRatio, RatioOfVariances, equal_spread, ln_cv_ratio, ln_variability_ratio,
};

/// What Anscombe adds to a count before the root.
const THREE_EIGHTHS: f64 = 0.375;

/// The scale of a comparison of spread.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum SpreadScale {
    /// The logarithm and the coefficient of variation: lengths, all above zero.
    Proportion,
    /// The root of the count and three eighths: counts, zero among them.
    Root,
    /// As they stand: plain numbers.
    Plain,
}

impl SpreadScale {
    /// Whether groups vary alike on the scale, by Brown & Forsythe's test.
    ///
    /// # Errors
    /// As [`equal_spread`]; or a value at or below zero on the logarithm, below zero on the root.
    pub fn equal_spread(self, groups: &[Vec<f64>]) -> Result<RatioOfVariances, StatisticsError> {
        let on_scale: Result<Vec<Vec<f64>>, StatisticsError> =
            groups.iter().map(|group| self.values(group)).collect();
        equal_spread(&on_scale?)
    }

    /// How much the first varies against the second: the ratio of coefficients of variation for
    /// [`SpreadScale::Proportion`], else of standard deviations on the scale. Simulated coverage of its 95 % limits for
    /// counts of mean 1 to 10, spread evenly, in clumps or with more zeros, is 93 to 99.9 % from six plants on.
    ///
    /// # Errors
    /// A group of fewer than two values, without spread, or with a value the scale does not have.
    pub fn ratio(
        self,
        first: &[f64],
        second: &[f64],
        confidence: Confidence,
    ) -> Result<LogRatio, StatisticsError> {
        match self {
            Self::Proportion => ln_cv_ratio(first, second, confidence),
            _ => ln_variability_ratio(&self.values(first)?, &self.values(second)?, confidence),
        }
    }

    /// Between which values 95 % of a cross lie, if it spreads `ratio` times as much as the `first`: about its own mean,
    /// from nothing up where values cannot be negative. `None` without a spread of the first.
    pub fn expected_range(self, values: &[f64], first: &[f64], ratio: f64) -> Option<(f64, f64)> {
        const HALF: f64 = 1.96;
        require(values, 1).ok()?;
        if self == Self::Proportion {
            let (own, centre) = (mean(values), mean(first));
            let half = HALF * ratio * sample_sd(first).ok()? / centre;
            return (centre > 0.0).then(|| ((own * (1.0 - half)).max(0.0), own * (1.0 + half)));
        }
        let (own, first) = (self.values(values).ok()?, self.values(first).ok()?);
        let (centre, half) = (mean(&own), HALF * ratio * sample_sd(&first).ok()?);
        Some((self.value(centre - half), self.value(centre + half)))
    }

    /// A value back from the scale.
    fn value(self, on_scale: f64) -> f64 {
        match self {
            Self::Proportion => libm::exp(on_scale),
            Self::Root => {
                let root = on_scale.max(0.0);
                (root * root - THREE_EIGHTHS).max(0.0)
            }
            Self::Plain => on_scale,
        }
    }

    fn values(self, values: &[f64]) -> Result<Vec<f64>, StatisticsError> {
        match self {
            Self::Proportion => logs(values, 2),
            Self::Root => {
                require(values, 2)?;
                if values.iter().any(|&count| count < 0.0) {
                    return Err(StatisticsError::NotPositive);
                }
                let root = |count: &f64| libm::sqrt(count + THREE_EIGHTHS);
                Ok(values.iter().map(root).collect())
            }
            Self::Plain => require(values, 2).map(|()| values.to_vec()),
        }
    }
}

/// Which of several measures vary most: that of the largest coefficient of variation, and all whose 95 % limits reach up
/// to it, since they may vary as much; the largest first, equal ones in the order given. Each coefficient, a ratio, comes
/// with its least and greatest value.
pub fn most_variable(coefficients: &[(f64, (f64, f64))]) -> Vec<usize> {
    let all = coefficients.iter().map(|(cv, _)| *cv);
    let most = all.fold(f64::NEG_INFINITY, f64::max);
    let reaches = |at: &usize| coefficients[*at].1.1 >= most || coefficients[*at].0 == most;
    let mut found: Vec<usize> = (0..coefficients.len()).filter(reaches).collect();
    found.sort_by(|a, b| coefficients[*b].0.total_cmp(&coefficients[*a].0));
    found
}
