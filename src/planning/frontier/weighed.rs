//! The best plan under one weight on kinship, with the bound that holds for it.

use super::super::budget::Budget;
use super::super::search::Asked;
use super::super::season::Season;
use super::moves::improved;
use super::relations::{Point, Relations};

/// The best plan found under one weight on kinship.
#[derive(Clone, PartialEq, Debug)]
pub struct Weighed {
    /// Weight λ.
    pub weight: f64,
    /// The plan.
    pub point: Point,
    /// `gain − λ·coancestry` of the plan.
    pub objective: f64,
    /// No plan has more.
    pub bound: f64,
}

/// Rounds of Frank & Wolfe for each weight.
const ROUNDS: usize = 24;
/// Plans looked at under the last tangent.
const LOOKED_AT: usize = 100;
/// Most networks for one tangent.
const STEPS: u64 = 4_000;

/// A good plan of exactly `pods` pods under a weight on kinship, with the bound that no such plan exceeds; `None` if no
/// plan has that many pods, none was found within the steps allowed, or the budget ended first.
pub fn weighed(
    season: &Season,
    relations: &Relations,
    (pods, weight): (u32, f64),
    budget: &mut Budget,
) -> Option<Weighed> {
    let mut fixed = season.clone();
    (fixed.limits.fewest_pods, fixed.limits.most_pods) = (pods, Some(pods));
    let mut sought = Sought {
        season,
        relations,
        fixed,
        weight,
        best: None,
        bound: f64::INFINITY,
    };
    let mut amounts = vec![0.0; season.pairings.len()];
    for round in 0..ROUNDS {
        let target = dense(season, &sought.under_tangent(&amounts, 1, budget)?);
        let step = 2.0 / (round as f64 + 2.0);
        amounts
            .iter_mut()
            .zip(&target)
            .for_each(|(now, to)| *now += step * (to - *now));
    }
    sought.under_tangent(&amounts, LOOKED_AT, budget)?;
    let point = improved(season, relations, sought.best.take()?, weight, budget);
    let objective = sought.objective(&point);
    Some(Weighed {
        weight,
        objective,
        bound: sought.bound.max(objective),
        point,
    })
}

struct Sought<'a> {
    season: &'a Season,
    relations: &'a Relations<'a>,
    /// The season with the number of pods fixed.
    fixed: Season,
    weight: f64,
    best: Option<Point>,
    bound: f64,
}

impl Sought<'_> {
    fn objective(&self, point: &Point) -> f64 {
        point.gain - self.weight * point.coancestry
    }

    /// The best plans under the tangent at some amounts of pods; gives the first. Since the objective is concave it lies
    /// below the tangent, `−λcᵀΦc ≤ λsᵀΦs − 2λsᵀΦc`: the tangent's best bounds it, and once plans are listed down to
    /// the best objective met, that one is the optimum.
    fn under_tangent(
        &mut self,
        amounts: &[f64],
        plans: usize,
        budget: &mut Budget,
    ) -> Option<Vec<(usize, u32)>> {
        if !budget.goes_on() {
            return None;
        }
        let shares = Relations::shares(self.season, amounts.iter().copied().enumerate());
        let slope = self.relations.products(&shares);
        let per_pod = 1.0 / f64::from(self.fixed.limits.fewest_pods.max(1));
        for (at, pairing) in self.fixed.pairings.iter_mut().enumerate() {
            let parents = Relations::parents(self.season, at);
            let kin: f64 = parents.iter().map(|&parent| slope[parent]).sum();
            pairing.value = per_pod * (self.season.pairings[at].value - self.weight * kin);
        }
        let asked = Asked {
            plans,
            ties: 0,
            steps: STEPS,
        };
        let found = budget.search(&self.fixed, asked);
        let level = self.weight * self.relations.coancestry(&shares);
        self.bound = self.bound.min(found.bound + level);
        for plan in &found.plans {
            let point = self
                .relations
                .point(self.season, self.season.plan(plan.pods.clone()));
            let better = |known: &Point| self.objective(&point) > self.objective(known) + 1e-12;
            if self.best.as_ref().is_none_or(better) {
                self.best = Some(point);
            }
        }
        if found.all_proved && plans > 1 {
            let listed = found.plans.last().filter(|_| found.plans.len() == plans);
            let best = self
                .best
                .as_ref()
                .map_or(f64::NEG_INFINITY, |point| self.objective(point));
            self.bound = self
                .bound
                .min(listed.map_or(best, |last| best.max(last.value + level)));
        }
        Some(found.plans.first()?.pods.clone())
    }
}

fn dense(season: &Season, pods: &[(usize, u32)]) -> Vec<f64> {
    let mut amounts = vec![0.0; season.pairings.len()];
    pods.iter().for_each(|&(at, n)| amounts[at] = f64::from(n));
    amounts
}
