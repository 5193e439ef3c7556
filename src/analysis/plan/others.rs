//! Plans beside the best: those as good, and the next best.

use crate::analysis::plan::answer::OtherPlan;
use crate::analysis::plan::bench::Bench;
use crate::analysis::plan::ground::Ground;
use crate::planning::search::SAME_WORTH;
use crate::planning::season::Plan;
use std::collections::BTreeMap;

/// Plans beside the best, each told by what it has instead.
pub(crate) struct Others {
    /// Plans worth the same as the best, itself included.
    pub ties: usize,
    pub as_good: Vec<OtherPlan>,
    pub next_best: Vec<OtherPlan>,
}

impl Ground<'_, '_, '_> {
    /// At most so many of each kind, out of plans in order, the best first. Plans that differ in envelopes alone count as
    /// one.
    pub fn others(&self, bench: &Bench, plans: &[Plan], most: usize) -> Others {
        let apart = distinct(bench, plans);
        let Some(best) = apart.first() else {
            return Others {
                ties: 0,
                as_good: Vec::new(),
                next_best: Vec::new(),
            };
        };
        let ties = apart.partition_point(|plan| same_worth(bench, plan, best));
        let row = |plan: &&Plan| OtherPlan {
            less: (best.value - plan.value).max(0.0),
            instead: self.instead(bench, best, plan),
            mean_inbreeding: plan.mean_inbreeding,
        };
        Others {
            ties,
            as_good: apart[1..ties].iter().take(most).map(row).collect(),
            // To pollinate nothing is no plan.
            next_best: apart[ties..]
                .iter()
                .filter(|plan| plan.total > 0)
                .take(most)
                .map(row)
                .collect(),
        }
    }

    /// Plans as good that are not told yet, as rows.
    pub fn also_as_good(
        &self,
        bench: &Bench,
        (best, others): (&Plan, &[Plan]),
        told: &mut Vec<OtherPlan>,
    ) {
        for plan in others {
            let instead = self.instead(bench, best, plan);
            if told.iter().all(|row| row.instead != instead) {
                told.push(OtherPlan {
                    less: (best.value - plan.value).max(0.0),
                    instead,
                    mean_inbreeding: plan.mean_inbreeding,
                });
            }
        }
    }

    /// What one plan has more and less than another.
    fn instead(&self, bench: &Bench, best: &Plan, other: &Plan) -> String {
        let (from, to) = (by_plants(bench, best), by_plants(bench, other));
        let mut pairs: Vec<&(usize, usize)> = from.keys().chain(to.keys()).collect();
        pairs.sort_unstable();
        pairs.dedup();
        let change = |pair: &&(usize, usize)| {
            let pods = |of: &BTreeMap<(usize, usize), u32>| i64::from(*of.get(*pair).unwrap_or(&0));
            let more = pods(&to) - pods(&from);
            let sign = if more > 0 { '+' } else { '−' };
            let words = format!(
                "{sign}{} {} × {}",
                more.abs(),
                self.registry.code(bench.seeds[pair.0]),
                self.registry.code(bench.donors[pair.1])
            );
            (more != 0).then_some(words)
        };
        pairs
            .iter()
            .filter_map(change)
            .collect::<Vec<_>>()
            .join(", ")
    }
}

/// Whether a plan ties with the best.
pub(crate) fn same_worth(bench: &Bench, plan: &Plan, best: &Plan) -> bool {
    let pairings = bench.season.pairings.iter();
    let open = pairings.filter(|pairing| bench.season.open(pairing));
    let largest = open.map(|pairing| pairing.value.abs()).fold(0.0, f64::max);
    plan.value >= best.value - SAME_WORTH * largest
}

/// Plans that differ in plants, the first of each kind, in order.
fn distinct<'p>(bench: &Bench, plans: &'p [Plan]) -> Vec<&'p Plan> {
    let mut seen = Vec::new();
    let mut kept = Vec::new();
    for plan in plans {
        let plants = by_plants(bench, plan);
        if !seen.contains(&plants) {
            seen.push(plants);
            kept.push(plan);
        }
    }
    kept
}

/// Pods by seed parent and donor.
fn by_plants(bench: &Bench, plan: &Plan) -> BTreeMap<(usize, usize), u32> {
    let mut pods = BTreeMap::new();
    for &(at, n) in &plan.pods {
        let pairing = &bench.season.pairings[at];
        *pods
            .entry((pairing.seed, bench.season.lots[pairing.lot].donor))
            .or_default() += n;
    }
    pods
}
