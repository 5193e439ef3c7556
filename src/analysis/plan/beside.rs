//! Two plans pair by pair: how many pods of each pair the plan and another plan make.

use crate::analysis::plan::answer::PlannedRow;
use crate::analysis::plan::others::OtherPlan;

impl OtherPlan {
    /// Its pods by pair, beside those of the `plan`: every pair of either, those of the plan in its order first, then
    /// those only it has.
    pub fn beside(&self, plan: &[PlannedRow]) -> Vec<PairBeside> {
        let mut pairs = pairs_of(plan);
        for change in &self.instead.0 {
            let found = pairs.iter_mut().find(|of| of.pair == change.pair);
            match found {
                Some(of) => of.other = (i64::from(of.other) + change.more).max(0) as u32,
                None => pairs.push(PairBeside {
                    pair: change.pair.clone(),
                    may_not_meet: change.may_not_meet,
                    plan: 0,
                    other: change.more.max(0) as u32,
                }),
            }
        }
        pairs
    }
}

/// Pods of one pair in two plans.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct PairBeside {
    /// Seed parent and pollen parent.
    pub pair: [String; 2],
    /// Whether flowers and pollen of some of its pods only perhaps meet.
    pub may_not_meet: bool,
    /// Pods in the plan.
    pub plan: u32,
    /// Pods in the other plan.
    pub other: u32,
}

/// The pods of a plan by pair, whatever the envelopes, in its order; the same in both plans.
pub fn pairs_of(plan: &[PlannedRow]) -> Vec<PairBeside> {
    let mut pairs: Vec<PairBeside> = Vec::new();
    for row in plan {
        let pair = [row.seed.clone(), row.pollen.clone()];
        match pairs.iter_mut().find(|of| of.pair == pair) {
            Some(of) => {
                of.may_not_meet |= row.may_not_meet();
                of.plan += row.pods;
                of.other += row.pods;
            }
            None => pairs.push(PairBeside {
                pair,
                may_not_meet: row.may_not_meet(),
                plan: row.pods,
                other: row.pods,
            }),
        }
    }
    pairs
}
