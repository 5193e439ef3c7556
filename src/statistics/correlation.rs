//! Do two traits go together among siblings?
//!
//! Spearman's rank correlation: Pearson's on mid-ranks, so that steps of a scale, skewed sizes and one wrong reading do
//! little harm. Limits by Fisher's z with the variance `(1 + ρ²/2)/(n − 3)` of Bonett & Wright (2000, from memory); their
//! coverage is simulated in the tests. A correlation of what was read is phenotypic: of genes and places together.

use super::distribution::normal_quantile;
use super::error::{StatisticsError, require};
use super::interval::{Confidence, Interval};
use super::ranks::mid_ranks;

/// Plants below which no correlation is given: among fewer any order of ranks is common by chance.
pub const FEWEST: usize = 6;

/// A rank correlation.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RankCorrelation {
    /// Plants with both readings.
    pub n: usize,
    /// Spearman's ρ, −1 to 1.
    pub rho: f64,
    /// Its limits, within −1 to 1; `None` at −1 and 1, where z is infinite.
    pub interval: Option<Interval>,
}

/// The rank correlation of two readings of each plant.
///
/// # Errors
/// Lists of different length, fewer than [`FEWEST`] plants, a value not finite, or a trait in which all are alike.
pub fn spearman(
    first: &[f64],
    second: &[f64],
    confidence: Confidence,
) -> Result<RankCorrelation, StatisticsError> {
    if first.len() != second.len() {
        return Err(StatisticsError::Unpaired {
            left: first.len(),
            right: second.len(),
        });
    }
    require(first, FEWEST)?;
    require(second, FEWEST)?;
    let (x, y) = (mid_ranks(first), mid_ranks(second));
    let n = first.len() as f64;
    let centre = (n + 1.0) / 2.0;
    let product = |a: &[f64], b: &[f64]| -> f64 {
        a.iter()
            .zip(b)
            .map(|(a, b)| (a - centre) * (b - centre))
            .sum()
    };
    let spread = product(&x, &x) * product(&y, &y);
    if spread <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let rho = (product(&x, &y) / libm::sqrt(spread)).clamp(-1.0, 1.0);
    let error = libm::sqrt((1.0 + rho * rho / 2.0) / (n - 3.0));
    let half = normal_quantile(1.0 - confidence.tail()) * error;
    let limits = || Interval::around(libm::atanh(rho), half).map(libm::tanh);
    Ok(RankCorrelation {
        n: first.len(),
        rho,
        interval: (rho.abs() < 1.0).then(limits),
    })
}
