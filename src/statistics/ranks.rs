//! Do several pods differ, judged by rank order only?
//!
//! Kruskal & Wallis (1952); ties share the mean of their ranks. Up to [`SMALL_TOTAL`] plants are tested against the
//! ways the readings could have fallen, listed or drawn with a fixed seed, not against a curve.

use super::distribution::chi_square_upper;
use super::error::{StatisticsError, require, require_count};
use super::multinomial::{DRAWS, Found};
use super::random::SplitMix64;

/// Plants in all up to which Kruskal–Wallis is tested by permutation.
pub const SMALL_TOTAL: usize = 20;
/// Arrangements listed one by one at most; beyond, they are drawn.
pub const LARGEST_LIST: f64 = 2.0e5;
const SEED: u64 = 0x0000_8A4E_5000;

/// Ranks from 1, ties sharing their mean; values must be finite.
pub fn mid_ranks(values: &[f64]) -> Vec<f64> {
    ranked(values).0
}

/// Ranks from 1, ties sharing their mean, and how many values each tie holds, the smallest value's first.
pub(crate) fn ranked(values: &[f64]) -> (Vec<f64>, Vec<usize>) {
    // Sorted beside their values: a look at each value by its place would cost more than the rest.
    let mut order: Vec<(f64, u32)> = values.iter().copied().zip(0u32..).collect();
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let (mut ranks, mut before) = (vec![0.0; values.len()], 0);
    let mut ties = Vec::new();
    for tied in order.chunk_by(|a, b| a.0 == b.0) {
        for &(_, place) in tied {
            ranks[place as usize] = before as f64 + 0.5 * (tied.len() as f64 + 1.0);
        }
        before += tied.len();
        ties.push(tied.len());
    }
    (ranks, ties)
}

/// The share of squared-rank spread that ties leave: 1 without ties, 0 if all values are equal.
pub(crate) fn tie_factor(ties: &[usize]) -> f64 {
    let cube = |n: f64| n * n * n - n;
    let lost: f64 = ties.iter().map(|&tied| cube(tied as f64)).sum();
    1.0 - lost / cube(ties.iter().sum::<usize>() as f64)
}

/// A comparison of several groups by ranks.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct RankTest {
    /// The statistic H, corrected for ties.
    pub h: f64,
    /// Groups less one.
    pub df: usize,
    /// Probability of a larger H by chi-square.
    pub p_chi_square: f64,
    /// Probability of an H at least as large over all arrangements; only for small totals.
    pub p_exact: Option<(f64, Found)>,
}

impl RankTest {
    /// The probability to act on: exact where it is known.
    pub fn p(&self) -> f64 {
        self.p_exact.map_or(self.p_chi_square, |(p, _)| p)
    }
}

/// Kruskal & Wallis' test; empty groups are left out.
///
/// # Errors
/// Fewer than two groups with values, a value not finite, fewer than three values in all, or all equal.
pub fn kruskal_wallis(groups: &[Vec<f64>]) -> Result<RankTest, StatisticsError> {
    let filled: Vec<&Vec<f64>> = groups.iter().filter(|group| !group.is_empty()).collect();
    require_count(filled.len(), 2)?;
    let values: Vec<f64> = filled
        .iter()
        .flat_map(|group| group.iter().copied())
        .collect();
    require(&values, 3)?;
    let (ranks, ties) = ranked(&values);
    let factor = tie_factor(&ties);
    if factor <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let sizes: Vec<usize> = filled.iter().map(|group| group.len()).collect();
    let h = h_statistic(&ranks, &sizes) / factor;
    let df = sizes.len() - 1;
    let p_exact = (values.len() <= SMALL_TOTAL).then(|| permuted(&ranks, &sizes));
    Ok(RankTest {
        h,
        df,
        p_chi_square: chi_square_upper(h, df as f64),
        p_exact,
    })
}

/// H before the tie correction, ranks given group after group.
fn h_statistic(ranks: &[f64], sizes: &[usize]) -> f64 {
    let n = ranks.len() as f64;
    let (mut from, mut sum) = (0, 0.0);
    for &size in sizes {
        let rank_sum: f64 = ranks[from..from + size].iter().sum();
        sum += rank_sum * rank_sum / size as f64;
        from += size;
    }
    (12.0 / (n * (n + 1.0)) * sum - 3.0 * (n + 1.0)).max(0.0)
}

fn permuted(ranks: &[f64], sizes: &[usize]) -> (f64, Found) {
    let seen = h_statistic(ranks, sizes) - 1e-9;
    let mut group_of: Vec<usize> = sizes
        .iter()
        .enumerate()
        .flat_map(|(g, &s)| std::iter::repeat_n(g, s))
        .collect();
    let ways = arrangements(sizes);
    let mut as_far = 0;
    if ways <= LARGEST_LIST {
        loop {
            as_far += u64::from(regrouped(ranks, sizes, &group_of) >= seen);
            if !next_arrangement(&mut group_of) {
                return (as_far as f64 / ways, Found::Listed(ways as u64));
            }
        }
    }
    let mut random = SplitMix64::new(SEED);
    for _ in 1..DRAWS {
        random.shuffle(&mut group_of);
        as_far += u64::from(regrouped(ranks, sizes, &group_of) >= seen);
    }
    ((as_far + 1) as f64 / DRAWS as f64, Found::Sampled(DRAWS))
}

fn regrouped(ranks: &[f64], sizes: &[usize], group_of: &[usize]) -> f64 {
    let mut sums = vec![0.0; sizes.len()];
    for (rank, &group) in ranks.iter().zip(group_of) {
        sums[group] += rank;
    }
    let n = ranks.len() as f64;
    let sum: f64 = sums
        .iter()
        .zip(sizes)
        .map(|(s, &size)| s * s / size as f64)
        .sum();
    12.0 / (n * (n + 1.0)) * sum - 3.0 * (n + 1.0)
}

/// Ways to deal the plants into groups of these sizes.
fn arrangements(sizes: &[usize]) -> f64 {
    let (mut ways, mut dealt) = (1.0, 0);
    for &size in sizes {
        for i in 1..=size {
            dealt += 1;
            // Whole after every factor, so exact as long as it fits the list limit.
            ways = ways * dealt as f64 / i as f64;
        }
    }
    ways.round()
}

/// The next distinct order of a list with repeats; false after the last.
fn next_arrangement(list: &mut [usize]) -> bool {
    let Some(pivot) = (1..list.len())
        .rev()
        .find(|&i| list[i - 1] < list[i])
        .map(|i| i - 1)
    else {
        return false;
    };
    let larger = (pivot + 1..list.len())
        .rev()
        .find(|&i| list[i] > list[pivot])
        .unwrap_or(pivot + 1);
    list.swap(pivot, larger);
    list[pivot + 1..].reverse();
    true
}
