//! How sure is a share counted on a few plants?
//!
//! Intervals for "k of n": Wilson's (1927) is the one every report prints, because its mean coverage is close to what
//! it states from n = 3 upward. Also the chance that a set of unsexed seedlings holds both sexes. Ratios of several classes are in `segregation`.

use super::distribution::{ln_factorial, normal_quantile};
use super::error::{StatisticsError, require_within};
use super::interval::{Confidence, Interval};

fn check(k: u64, n: u64) -> Result<(), StatisticsError> {
    if n == 0 {
        return Err(StatisticsError::TooFew {
            found: 0,
            needed: 1,
        });
    }
    require_within(k as f64, 0.0, n as f64)
}

/// Wilson's score interval for the share behind `k` of `n`, within 0 to 1.
///
/// # Errors
/// `n` is 0, or `k` exceeds `n`.
pub fn wilson(k: u64, n: u64, confidence: Confidence) -> Result<Interval, StatisticsError> {
    check(k, n)?;
    let (count, share) = (n as f64, k as f64 / n as f64);
    let z = normal_quantile(1.0 - confidence.tail());
    let scale = 1.0 / (1.0 + z * z / count);
    let centre = scale * (share + z * z / (2.0 * count));
    let half =
        scale * z * libm::sqrt(share * (1.0 - share) / count + z * z / (4.0 * count * count));
    // The limits at 0 of n and n of n are exactly 0 and 1; rounding must not say otherwise.
    let low = if k == 0 { 0.0 } else { centre - half };
    let high = if k == n { 1.0 } else { centre + half };
    Ok(Interval { low, high })
}

/// The chance that `plants` unsexed seedlings hold at least `each` of both sexes, when a seedling is female with
/// probability `female` (0 to 1). 0 if there are fewer than `2 · each` plants; 1 if none are wanted.
///
/// # Errors
/// `female` is not between 0 and 1.
pub fn both_sexes(plants: u64, each: u64, female: f64) -> Result<f64, StatisticsError> {
    require_within(female, 0.0, 1.0)?;
    if each == 0 {
        return Ok(1.0);
    }
    if plants < 2 * each {
        return Ok(0.0);
    }
    Ok((each..=plants - each)
        .map(|k| binomial_chance(k, plants, female))
        .sum::<f64>()
        .min(1.0))
}

/// Probability of exactly `k` successes in `n` tries of chance `p` (0 to 1).
pub fn binomial_chance(k: u64, n: u64, p: f64) -> f64 {
    if k > n {
        return 0.0;
    }
    let share = |count: u64, ln_p: f64| if count == 0 { 0.0 } else { count as f64 * ln_p };
    let ways = ln_factorial(n) - ln_factorial(k) - ln_factorial(n - k);
    libm::exp(ways + share(k, libm::log(p)) + share(n - k, libm::log1p(-p)))
}
