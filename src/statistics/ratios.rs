//! Which ratios remain?
//!
//! A dozen plants fit almost any ratio, so [`ratios_not_rejected`] lists every common one that remains. The test itself
//! is in `segregation`.

use super::error::{StatisticsError, require_within};
use super::segregation::{check, ratio_test};

/// Ratios a grower meets, largest part first: one gene, two genes and their interactions (Mendel 1866; textbooks).
pub const USUAL_RATIOS: [&[u64]; 14] = [
    &[1, 1],
    &[2, 1],
    &[3, 1],
    &[9, 7],
    &[13, 3],
    &[15, 1],
    &[1, 1, 1],
    &[2, 1, 1],
    &[9, 4, 3],
    &[9, 6, 1],
    &[12, 3, 1],
    &[1, 1, 1, 1],
    &[3, 3, 1, 1],
    &[9, 3, 3, 1],
];

/// Every common ratio, in every order of its parts, that the exact test does not reject at `alpha` (0 to 1), with its
/// probability, in the order of [`USUAL_RATIOS`] and then of the parts.
///
/// # Errors
/// Fewer than two kinds, no plant counted, or `alpha` out of range. More than four kinds give an empty list.
pub fn ratios_not_rejected(
    counts: &[u64],
    alpha: f64,
) -> Result<Vec<(Vec<u64>, f64)>, StatisticsError> {
    require_within(alpha, 0.0, 1.0)?;
    check(counts, &vec![1; counts.len()])?;
    let mut kept = Vec::new();
    for ratio in USUAL_RATIOS
        .iter()
        .filter(|ratio| ratio.len() == counts.len())
    {
        for order in orders(ratio) {
            let p = ratio_test(counts, &order)?.p();
            if p > alpha {
                kept.push((order, p));
            }
        }
    }
    Ok(kept)
}

/// The distinct orders of a ratio's parts, from the descending one down.
fn orders(parts: &[u64]) -> Vec<Vec<u64>> {
    let mut order = parts.to_vec();
    order.sort_unstable_by(|a, b| b.cmp(a));
    let mut all = vec![order.clone()];
    while let Some(pivot) = (1..order.len())
        .rev()
        .find(|&i| order[i - 1] > order[i])
        .map(|i| i - 1)
    {
        let smaller = (pivot + 1..order.len())
            .rev()
            .find(|&i| order[i] < order[pivot])
            .unwrap_or(pivot + 1);
        order.swap(pivot, smaller);
        order[pivot + 1..].reverse();
        all.push(order.clone());
    }
    all
}
