//! How many plants does it take to see that one cross varies more?
//!
//! Power of the tests in `variance`, turned round: the number per side for a stated ratio of standard deviations.

use super::distribution::{normal_lower, normal_quantile, t_upper_quantile};
use super::error::{StatisticsError, require_within};
use super::noncentral::noncentral_t_lower;

/// Most plants per side that the search considers.
const MOST: usize = 100_000;

/// Plants per cross with which Brown & Forsythe's test at `alpha` finds a ratio of standard deviations of `ratio`
/// (above 0, not 1) with the wanted `power`, both crosses alike in number, values normal on the scale analysed.
///
/// The mean distance from the centre is `σ√(2/π)`, its variance `σ²(1 − 2/π)`; the difference of two such means is
/// taken as a noncentral *t*. Simulated power at the answer is within 0.05 of the one asked for ratios from 1.25 to 3.
///
/// # Errors
/// `ratio` is 1 or not above 0, `alpha` or `power` not between 0 and 1, or more than 100,000 would be needed.
pub fn plants_needed(ratio: f64, alpha: f64, power: f64) -> Result<usize, StatisticsError> {
    check(ratio, alpha, power)?;
    let centre = libm::sqrt(std::f64::consts::FRAC_2_PI) * (ratio - 1.0).abs();
    let variance = (1.0 - std::f64::consts::FRAC_2_PI) * (1.0 + ratio * ratio);
    first_number(3, |n| {
        two_mean_power(centre / libm::sqrt(variance), n, alpha) >= power
    })
}

fn check(ratio: f64, alpha: f64, power: f64) -> Result<(), StatisticsError> {
    require_within(alpha, 1e-12, 1.0 - 1e-12)?;
    require_within(power, 1e-12, 1.0 - 1e-12)?;
    match ratio {
        1.0 => Err(StatisticsError::NoSpread),
        r if r > 0.0 && r.is_finite() => Ok(()),
        _ => Err(StatisticsError::NotPositive),
    }
}

/// Power of a two-sided *t* test of two groups of `n` whose means lie `standardised · √n` standard errors apart.
fn two_mean_power(standardised: f64, n: usize, alpha: f64) -> f64 {
    let (df, delta) = (2.0 * (n as f64 - 1.0), standardised * libm::sqrt(n as f64));
    if df > 1_000.0 {
        return 1.0 - normal_lower(normal_quantile(1.0 - 0.5 * alpha) - delta);
    }
    1.0 - noncentral_t_lower(t_upper_quantile(0.5 * alpha, df), df, delta)
}

/// The first number from `least` for which `enough` holds, given that it holds for all later ones.
fn first_number(least: usize, enough: impl Fn(usize) -> bool) -> Result<usize, StatisticsError> {
    if enough(least) {
        return Ok(least);
    }
    let (mut low, mut high) = (least, 2 * least);
    while !enough(high) {
        low = high;
        high *= 2;
        if high > MOST {
            return Err(StatisticsError::OutOfReach { limit: MOST });
        }
    }
    while high - low > 1 {
        let middle = low + (high - low) / 2;
        if enough(middle) {
            high = middle
        } else {
            low = middle
        }
    }
    Ok(high)
}
