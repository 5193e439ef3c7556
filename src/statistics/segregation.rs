//! Do counted kinds fit a stated ratio, such as 3:1?
//!
//! The exact multinomial test answers (outcomes no more probable than the one counted); chi-square and G stand beside
//! it. A ratio of one or two genes assumes the parents' genotypes; in a cross between species a fit is a hint, not a
//! proof. Which common ratios remain, and how many plants would tell two apart, is in `ratios`.

use super::distribution::chi_square_upper;
use super::error::{StatisticsError, require_count};
use super::multinomial::{Found, exact};

/// Plants counted at most: far above any registry, and as many logarithms as are kept in memory.
pub const MOST_COUNTED: u64 = 10_000_000;
/// Largest part of a ratio.
const MOST_PARTS: u64 = 1_000_000;

/// A test of counts against a ratio.
#[derive(Clone, PartialEq, Debug)]
pub struct RatioTest {
    /// Plants counted.
    pub plants: u64,
    /// Expected counts, in the order of the kinds.
    pub expected: Vec<f64>,
    /// Probability of an outcome no more probable than the one counted.
    pub p_exact: f64,
    /// How `p_exact` was found.
    pub found: Found,
    /// Degrees of freedom of both approximations: kinds less one.
    pub df: usize,
    /// Pearson's chi-square and the probability of a larger one.
    pub chi_square: (f64, f64),
    /// The likelihood ratio G and the probability of a larger one.
    pub g: (f64, f64),
}

impl RatioTest {
    /// The probability to act on.
    pub fn p(&self) -> f64 {
        self.p_exact
    }
}

/// Tests counts of kinds against a ratio of whole parts, each at least 1, in the same order.
///
/// # Errors
/// Fewer than two kinds, lists of different length, no plant counted or more than [`MOST_COUNTED`], or a part of 0 or
/// above a million.
pub fn ratio_test(counts: &[u64], ratio: &[u64]) -> Result<RatioTest, StatisticsError> {
    let plants = check(counts, ratio)?;
    let whole: u64 = ratio.iter().sum();
    let shares: Vec<f64> = ratio
        .iter()
        .map(|&part| part as f64 / whole as f64)
        .collect();
    let expected: Vec<f64> = shares.iter().map(|share| share * plants as f64).collect();
    let df = counts.len() - 1;
    let chi_square: f64 = counts
        .iter()
        .zip(&expected)
        .map(|(&k, e)| (k as f64 - e) * (k as f64 - e) / e)
        .sum();
    let g = 2.0
        * counts
            .iter()
            .zip(&expected)
            .map(|(&k, e)| x_ln_ratio(k as f64, *e))
            .sum::<f64>();
    let tail = |statistic| (statistic, chi_square_upper(statistic, df as f64));
    let by_chi_square = (tail(chi_square).1, Found::ByChiSquare);
    let (p_exact, found) = exact(counts, &shares, plants).unwrap_or(by_chi_square);
    Ok(RatioTest {
        plants,
        expected,
        p_exact,
        found,
        df,
        chi_square: tail(chi_square),
        g: tail(g.max(0.0)),
    })
}

pub(crate) fn check(counts: &[u64], ratio: &[u64]) -> Result<u64, StatisticsError> {
    if counts.len() != ratio.len() {
        return Err(StatisticsError::Unpaired {
            left: counts.len(),
            right: ratio.len(),
        });
    }
    require_count(counts.len(), 2)?;
    if let Some(&part) = ratio.iter().find(|&&part| part == 0 || part > MOST_PARTS) {
        return Err(StatisticsError::OutOfRange {
            found: part as f64,
            low: 1.0,
            high: MOST_PARTS as f64,
        });
    }
    total(counts)
}

/// All plants counted: at least one, at most [`MOST_COUNTED`].
pub(crate) fn total(counts: &[u64]) -> Result<u64, StatisticsError> {
    match counts
        .iter()
        .try_fold(0_u64, |sum, &count| sum.checked_add(count))
    {
        Some(0) => Err(StatisticsError::TooFew {
            found: 0,
            needed: 1,
        }),
        Some(plants) if plants <= MOST_COUNTED => Ok(plants),
        sum => {
            let found = sum.map_or(f64::INFINITY, |plants| plants as f64);
            Err(StatisticsError::OutOfRange {
                found,
                low: 1.0,
                high: MOST_COUNTED as f64,
            })
        }
    }
}

/// `k · ln(k / e)`, which is 0 at `k = 0`.
pub(crate) fn x_ln_ratio(k: f64, e: f64) -> f64 {
    if k == 0.0 { 0.0 } else { k * libm::log(k / e) }
}
