//! Do two groups differ, judged by rank order only?
//!
//! Mann & Whitney (1947). The exact probability counts, for every rank sum, the ways to choose one of the groups;
//! ties share the mean of their ranks and are counted as they are.

use super::distribution::normal_two_sided;
use super::error::{StatisticsError, require};
use super::ranks::{ranked, tie_factor};

/// A comparison of two groups by ranks.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct TwoGroups {
    /// Pairs in which the first group's value is larger, ties counting half.
    pub u: f64,
    /// Probability of a U at least as far from the middle, by the normal curve with ties and continuity corrected.
    pub p_normal: f64,
    /// The same over all arrangements; only where `n·m` is at most 2,500.
    pub p_exact: Option<f64>,
}

impl TwoGroups {
    /// The probability to act on: exact where it is known.
    pub fn p(&self) -> f64 {
        self.p_exact.unwrap_or(self.p_normal)
    }
}

/// Mann & Whitney's test, two-sided.
///
/// # Errors
/// An empty group, a value not finite, or all values equal.
pub fn mann_whitney(first: &[f64], second: &[f64]) -> Result<TwoGroups, StatisticsError> {
    require(first, 1)?;
    require(second, 1)?;
    let (ranks, ties) = ranked(&[first, second].concat());
    let factor = tie_factor(&ties);
    if factor <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let (n, m) = (first.len() as f64, second.len() as f64);
    let u = ranks[..first.len()].iter().sum::<f64>() - 0.5 * n * (n + 1.0);
    let sd = libm::sqrt(n * m * (n + m + 1.0) / 12.0 * factor);
    let z = ((u - 0.5 * n * m).abs() - 0.5) / sd;
    let p_normal = if z <= 0.0 { 1.0 } else { normal_two_sided(z) };
    let p_exact =
        (first.len() * second.len() <= 2_500).then(|| exact_rank_sum(&ranks, first.len()));
    Ok(TwoGroups {
        u,
        p_normal,
        p_exact,
    })
}

/// Counts, for every doubled rank sum, the ways to choose the smaller group, then adds those as far from the middle.
fn exact_rank_sum(ranks: &[f64], first: usize) -> f64 {
    let mut doubled: Vec<usize> = ranks.iter().map(|r| (2.0 * r) as usize).collect();
    if first > doubled.len() - first {
        doubled.rotate_left(first);
    }
    let chosen = first.min(doubled.len() - first);
    let seen: usize = doubled[..chosen].iter().sum();
    let most = chosen * 2 * doubled.len();
    let mut ways = vec![vec![0.0; most + 1]; chosen + 1];
    ways[0][0] = 1.0;
    for &rank in &doubled {
        for k in (1..=chosen).rev() {
            let (fewer, these) = ways.split_at_mut(k);
            for sum in rank..=most {
                these[0][sum] += fewer[k - 1][sum - rank];
            }
        }
    }
    // The sum in the middle, for both groups alike, is chosen · (total + 1).
    let far = |sum: usize| sum.abs_diff(chosen * (doubled.len() + 1));
    let as_far = (0..=most)
        .filter(|&sum| far(sum) >= far(seen))
        .map(|sum| ways[chosen][sum]);
    (as_far.sum::<f64>() / ways[chosen].iter().sum::<f64>()).min(1.0)
}
