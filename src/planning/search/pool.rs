//! The plans a search has met: which are kept, what a plan must be worth to be wanted still, and their final order.

use std::cmp::Ordering;

use super::super::season::{Plan, Season};
use super::super::units::IntegerModel;
use super::answer::Asked;

/// A plan in whole numbers: units of value, pods by pairing.
type Met = (i64, Vec<(usize, u32)>);

/// Plans met, best first; among plans worth the same the one that uses earlier pairings.
pub(super) struct Pool {
    met: Vec<Met>,
    asked: Asked,
    /// How many plans are wanted now: the best alone until it is proved, then all that were asked for.
    pub wanted: usize,
    /// Whether plans that tie with the best are wanted too.
    pub counting: bool,
}

impl Pool {
    pub fn new(asked: Asked) -> Self {
        Self {
            met: Vec::new(),
            asked,
            wanted: 1,
            counting: false,
        }
    }

    /// Units of the best plan.
    pub fn best(&self) -> Option<i64> {
        self.met.first().map(|met| met.0)
    }

    /// Whether as many plans as are wanted are worth at least `floor` units.
    pub fn is_full_above(&self, floor: i64) -> bool {
        let last = self.met.get(self.wanted - 1);
        last.is_some_and(|met| met.0 >= floor)
    }

    /// The fewest units a plan must be worth to be wanted still; `None` while nothing was met.
    pub fn needed(&self, model: &IntegerModel) -> Option<i64> {
        let level = self.best()? - model.tie;
        let last = self.met.get(self.wanted - 1);
        let by_number = last.map_or(i64::MIN, |met| met.0 + 1);
        let tied = self.met.partition_point(|met| met.0 >= level);
        let by_ties = if self.counting && tied < self.asked.ties {
            level
        } else {
            i64::MAX
        };
        Some(by_number.min(by_ties))
    }

    pub fn keep(&mut self, model: &IntegerModel, sent: &[u32]) {
        let met = (model.value(sent), model.pods(sent));
        let order = |other: &Met| met.0.cmp(&other.0).then_with(|| other.1.cmp(&met.1));
        if let Err(place) = self.met.binary_search_by(order) {
            self.met.insert(place, met);
            let most = self.asked.plans.max(self.asked.ties).max(1);
            self.met.truncate(most);
        }
    }

    /// The plans asked for, best first: those worth the same by mean inbreeding, then by pods that may not
    /// meet, then by how many sexes are only guessed, then by the age of their pollen, then by pairings. Also what the best is worth, and how many tie
    /// with it.
    pub fn sorted(&self, season: &Season, model: &IntegerModel) -> (Vec<Plan>, f64, usize) {
        let plan = |met: &Met| season.plan(met.1.clone());
        let mut plans: Vec<Plan> = self.met.iter().map(plan).collect();
        let values = plans.iter().map(|plan| plan.value);
        let best = values.fold(f64::NEG_INFINITY, f64::max);
        let level = best - model.tie as f64 / model.scale;
        let tied = |plan: &Plan| plan.value >= level;
        plans.sort_by(|a, b| {
            let value = if tied(a) && tied(b) {
                Ordering::Equal
            } else {
                b.value.total_cmp(&a.value)
            };
            value
                .then(a.mean_inbreeding.total_cmp(&b.mean_inbreeding))
                .then_with(|| {
                    let unsure = |plan| season.pods_that_may_not_meet(plan);
                    unsure(a).cmp(&unsure(b))
                })
                .then_with(|| season.guessed_sexes(a).cmp(&season.guessed_sexes(b)))
                .then_with(|| season.staleness(a).total_cmp(&season.staleness(b)))
                .then_with(|| a.pods.cmp(&b.pods))
        });
        let ties = plans.iter().filter(|plan| tied(plan)).count();
        plans.truncate(self.asked.plans.max(1));
        (plans, best, ties)
    }
}
