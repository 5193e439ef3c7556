//! Kinship among the parents of a plan, each weighted by its share of the seedlings' genes.

use super::super::season::{Plan, Season};

/// Kinship Φ of all parents, row by row: the seed parents in their order, then the donors; ½(1 + F) on the diagonal.
#[derive(Clone, Copy, Debug)]
pub struct Relations<'a> {
    /// Row by row.
    pub kinship: &'a [f64],
}

/// A plan on the frontier.
#[derive(Clone, PartialEq, Debug)]
pub struct Point {
    /// The plan.
    pub plan: Plan,
    /// Mean value of a pod.
    pub gain: f64,
    /// Group coancestry of its parents.
    pub coancestry: f64,
}

impl Relations<'_> {
    fn count(season: &Season) -> usize {
        season.seed_parents.len() + season.donors.len()
    }

    pub(super) fn parents(season: &Season, pairing: usize) -> [usize; 2] {
        let pairing = &season.pairings[pairing];
        [
            pairing.seed,
            season.seed_parents.len() + season.lots[pairing.lot].donor,
        ]
    }

    /// Shares of the parents in the seedlings' genes.
    pub(super) fn shares(season: &Season, pods: impl Iterator<Item = (usize, f64)>) -> Vec<f64> {
        let mut shares = vec![0.0; Self::count(season)];
        let mut total = 0.0;
        for (pairing, n) in pods {
            Self::parents(season, pairing)
                .iter()
                .for_each(|&parent| shares[parent] += 0.5 * n);
            total += n;
        }
        shares
            .iter_mut()
            .for_each(|share| *share /= f64::max(total, f64::MIN_POSITIVE));
        shares
    }

    pub(super) fn products(&self, shares: &[f64]) -> Vec<f64> {
        let rows = self.kinship.chunks_exact(shares.len());
        rows.map(|row| row.iter().zip(shares).map(|(k, c)| k * c).sum())
            .collect()
    }

    /// Φc of a plan.
    pub(super) fn products_of(&self, season: &Season, plan: &Plan) -> Vec<f64> {
        let pods = plan.pods.iter().map(|&(at, n)| (at, f64::from(n)));
        self.products(&Self::shares(season, pods))
    }

    /// Kinship of two of so many parents.
    pub(super) fn between(&self, parents: usize, one: usize, other: usize) -> f64 {
        self.kinship[one * parents + other]
    }

    pub(super) fn coancestry(&self, shares: &[f64]) -> f64 {
        self.products(shares)
            .iter()
            .zip(shares)
            .map(|(k, c)| k * c)
            .sum()
    }

    /// A plan with its gain and kinship; both 0 for an empty plan.
    pub fn point(&self, season: &Season, plan: Plan) -> Point {
        let shares = Self::shares(season, plan.pods.iter().map(|&(at, n)| (at, f64::from(n))));
        let gain = if plan.total == 0 {
            0.0
        } else {
            plan.value / f64::from(plan.total)
        };
        Point {
            gain,
            coancestry: self.coancestry(&shares),
            plan,
        }
    }
}
