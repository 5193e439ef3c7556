//! Which ratios remain, and how many plants tell one from another?
//!
//! A dozen plants fit almost any ratio, so [`ratios_not_rejected`] lists every common one that remains, and
//! [`plants_needed`] says how many plants a decision takes. The test itself is in `segregation`.

use super::error::{StatisticsError, require_within};
use super::multinomial::TIE;
use super::proportion::binomial_chance;
use super::segregation::{check, ratio_test};

/// Plants tried at most in [`plants_needed`].
const MOST_PLANTS: u64 = 2_000;

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

/// How many plants tell one share from another.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PlantsNeeded {
    /// The first number of plants with the wanted power.
    pub plants: u64,
    /// The chance of rejecting the tested share when the other is true.
    pub power: f64,
    /// The chance of rejecting it when it is true, at most the stated alpha.
    pub size: f64,
}

/// The fewest plants with which the exact two-kind test at `alpha` rejects share `tested` with at least `power` when
/// `truth` holds. The power of an exact test saws up and down, so a few more plants may fall just short again.
///
/// # Errors
/// A share, `alpha` or `power` is not between 0 and 1, or more than 2,000 plants would be needed.
pub fn plants_needed(
    tested: f64,
    truth: f64,
    alpha: f64,
    power: f64,
) -> Result<PlantsNeeded, StatisticsError> {
    for share in [tested, truth, alpha, power] {
        require_within(share, 0.0, 1.0)?;
    }
    for plants in 1..=MOST_PLANTS {
        let (size, reached) = rates(plants, tested, truth, alpha);
        if reached >= power {
            return Ok(PlantsNeeded {
                plants,
                power: reached,
                size,
            });
        }
    }
    Err(StatisticsError::OutOfReach {
        limit: MOST_PLANTS as usize,
    })
}

/// Chance of rejection under the tested share and under the true one.
fn rates(plants: u64, tested: f64, truth: f64, alpha: f64) -> (f64, f64) {
    let chances: Vec<f64> = (0..=plants)
        .map(|k| binomial_chance(k, plants, tested))
        .collect();
    let mut rarest_first: Vec<usize> = (0..chances.len()).collect();
    rarest_first.sort_by(|&a, &b| chances[a].total_cmp(&chances[b]));
    let (mut size, mut power, mut at) = (0.0, 0.0, 0);
    while at < rarest_first.len() {
        // Outcomes of equal chance are rejected together or not at all.
        let limit = chances[rarest_first[at]] * (1.0 + TIE);
        let tied = rarest_first[at..]
            .iter()
            .take_while(|&&k| chances[k] <= limit);
        let group: Vec<usize> = tied.copied().collect();
        let with_group = size + group.iter().map(|&k| chances[k]).sum::<f64>();
        if with_group > alpha {
            break;
        }
        size = with_group;
        power += group
            .iter()
            .map(|&k| binomial_chance(k as u64, plants, truth))
            .sum::<f64>();
        at += group.len();
    }
    (size, power)
}
