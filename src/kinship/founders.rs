//! How founders and ancestors are represented in a set of plants.
//!
//! Effective founders 1/Σp² (James 1972; Lacy 1989) from the founders' expected contributions p; effective ancestors
//! 1/Σm² (Boichard, Maignel & Verrier 1997) from the marginal contributions m of the fewest ancestors that explain the
//! set, which sees bottlenecks that founders do not. Unknown parents count as founders of their own.

use crate::lineage::{Pedigree, PlantRow};

use super::complete::Complete;
use super::marginals::Marginals;

/// Who stands behind a set, and how evenly.
#[derive(Clone, PartialEq, Debug)]
pub struct Representation {
    /// Founders with their contributions, ascending by row; contributions and `unknown` sum to one.
    pub founders: Vec<(PlantRow, f64)>,
    /// Contribution through unknown parents.
    pub unknown: f64,
    /// The same for each unknown parent, in order of the plants they are parents of.
    pub unknown_contributions: Vec<f64>,
    /// 1/Σp² over founders and unknown parents.
    pub effective_founders: f64,
}

/// One ancestor chosen to explain a set.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct MarginalAncestor {
    /// The plant; `None` for an unknown parent.
    pub plant: Option<PlantRow>,
    /// What it contributes beyond the ancestors before it, 0 to 1.
    pub contribution: f64,
    /// Whether another ancestor contributed as much; the oldest was taken.
    pub tied: bool,
}

/// Founder contributions to a set in which every plant counts once.
///
/// # Panics
/// If the set is empty.
pub fn representation(pedigree: &Pedigree, set: &[PlantRow]) -> Representation {
    let (complete, rows) = Complete::above(pedigree, set);
    // Whole counts are swept and divided once at the end, which keeps dyadic fractions exact.
    let counts = swept(&complete, &rows);
    let size = rows.len() as f64;
    let mut found = Representation {
        founders: Vec::new(),
        unknown: 0.0,
        unknown_contributions: Vec::new(),
        effective_founders: 0.0,
    };
    let mut squares = 0.0;
    for row in (0..complete.len()).filter(|&row| complete.is_founder(row)) {
        squares += counts[row] * counts[row];
        match complete.plants[row] {
            Some(plant) => found.founders.push((plant, counts[row] / size)),
            None => {
                found.unknown += counts[row] / size;
                found.unknown_contributions.push(counts[row] / size);
            }
        }
    }
    found.effective_founders = size * size / squares;
    found
}

fn swept(complete: &Complete, rows: &[u32]) -> Vec<f64> {
    assert!(!rows.is_empty(), "a set needs a plant");
    let mut counts = vec![0.0; complete.len()];
    rows.iter().for_each(|&row| counts[row as usize] += 1.0);
    complete.collect(&mut counts, &vec![false; complete.len()]);
    counts
}

/// The ancestors that explain a set, in the order chosen, at most `most` of them.
///
/// Each step takes the ancestor with the largest contribution not yet explained by those chosen before; ties go to the
/// oldest. The list ends when the set is explained. Cost: after a step only the ancestors of the one chosen and its
/// descendants that have offspring are worked out anew; the rest is sorted once.
///
/// # Panics
/// If the set is empty.
pub fn marginal_ancestors(
    pedigree: &Pedigree,
    set: &[PlantRow],
    most: usize,
) -> Vec<MarginalAncestor> {
    let (complete, rows) = Complete::above(pedigree, set);
    assert!(!rows.is_empty(), "a set needs a plant");
    let size = rows.len() as f64;
    let mut search = Marginals::of(&complete, &rows);
    let mut chosen = Vec::new();
    let mut explained = 0.0;
    while chosen.len() < most && explained < size * (1.0 - 1e-12) {
        let Some((best, marginal)) = search.largest() else {
            break;
        };
        chosen.push(MarginalAncestor {
            plant: complete.plants[best],
            contribution: marginal / size,
            tied: search.another_is(marginal),
        });
        explained += marginal;
        search.choose(best);
    }
    chosen
}

/// 1/Σm²; complete only if the list explains the whole set.
pub fn effective_ancestors(chosen: &[MarginalAncestor]) -> f64 {
    1.0 / chosen
        .iter()
        .map(|ancestor| ancestor.contribution * ancestor.contribution)
        .sum::<f64>()
}
