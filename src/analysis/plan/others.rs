//! Plans beside the best: those as good, and the next best.

use crate::analysis::plan::candidates::SeasonCandidates;
use crate::analysis::plan::context::PlanContext;
use crate::planning::search::SAME_WORTH;
use crate::planning::season::Plan;
use serde::Serialize;
use std::collections::BTreeMap;

/// What a plan has more and less than the best.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Instead(pub Vec<PodsChange>);

/// Pods of one pair more, or less when negative; never 0.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PodsChange {
    /// How many more.
    pub more: i64,
    /// Seed parent and pollen parent.
    pub pair: [String; 2],
    /// Whether flowers of the one and pollen of the other only perhaps meet, whichever pollen is taken.
    pub may_not_meet: bool,
}

/// Another plan.
#[derive(Serialize)]
pub struct OtherPlan {
    /// How much less it is worth.
    pub less: f64,
    /// What it has instead.
    pub instead: Instead,
    /// Mean inbreeding of its seedlings.
    pub mean_inbreeding: f64,
}

/// Plans beside the best, each told by what it has instead.
pub(crate) struct Others {
    /// Plans worth the same as the best, itself included.
    pub ties: usize,
    pub as_good: Vec<OtherPlan>,
    pub next_best: Vec<OtherPlan>,
}

impl PlanContext<'_, '_, '_> {
    /// At most so many of each kind, out of plans in order, the best first. Plans that differ in envelopes alone count as
    /// one.
    pub fn others(&self, candidates: &SeasonCandidates, plans: &[Plan], most: usize) -> Others {
        let apart = distinct(candidates, plans);
        let Some(best) = apart.first() else {
            return Others {
                ties: 0,
                as_good: Vec::new(),
                next_best: Vec::new(),
            };
        };
        let ties = apart.partition_point(|plan| same_worth(candidates, plan, best));
        let row = |plan: &&Plan| OtherPlan {
            less: (best.value - plan.value).max(0.0),
            instead: self.instead(candidates, best, plan),
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
        candidates: &SeasonCandidates,
        (best, others): (&Plan, &[Plan]),
        told: &mut Vec<OtherPlan>,
    ) {
        for plan in others {
            let instead = self.instead(candidates, best, plan);
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
    fn instead(&self, candidates: &SeasonCandidates, best: &Plan, other: &Plan) -> Instead {
        let (from, to) = (by_plants(candidates, best), by_plants(candidates, other));
        let mut pairs: Vec<&(usize, usize)> = from.keys().chain(to.keys()).collect();
        pairs.sort_unstable();
        pairs.dedup();
        let change = |pair: &&(usize, usize)| {
            let pods = |of: &BTreeMap<(usize, usize), u32>| i64::from(*of.get(*pair).unwrap_or(&0));
            let more = pods(&to) - pods(&from);
            let plants = [candidates.seeds[pair.0], candidates.donors[pair.1]];
            (more != 0).then(|| PodsChange {
                more,
                pair: plants.map(|plant| self.registry.code(plant)),
                may_not_meet: may_not_meet(candidates, **pair),
            })
        };
        Instead(pairs.iter().filter_map(change).collect())
    }
}

/// Whether no pollen of a donor surely meets the flowers of a seed parent.
fn may_not_meet(candidates: &SeasonCandidates, (seed, donor): (usize, usize)) -> bool {
    let season = &candidates.season;
    let mut pairings = season.pairings.iter();
    pairings.all(|pairing| {
        let plants = (pairing.seed, season.lots[pairing.lot].donor);
        plants != (seed, donor) || pairing.may_not_meet
    })
}

/// Whether a plan ties with the best.
pub(crate) fn same_worth(candidates: &SeasonCandidates, plan: &Plan, best: &Plan) -> bool {
    let pairings = candidates.season.pairings.iter();
    let open = pairings.filter(|pairing| candidates.season.open(pairing));
    let largest = open.map(|pairing| pairing.value.abs()).fold(0.0, f64::max);
    plan.value >= best.value - SAME_WORTH * largest
}

/// Plans that differ in plants, the first of each kind, in order.
fn distinct<'p>(candidates: &SeasonCandidates, plans: &'p [Plan]) -> Vec<&'p Plan> {
    let mut seen = Vec::new();
    let mut kept = Vec::new();
    for plan in plans {
        let plants = by_plants(candidates, plan);
        if !seen.contains(&plants) {
            seen.push(plants);
            kept.push(plan);
        }
    }
    kept
}

/// Pods by seed parent and donor.
fn by_plants(candidates: &SeasonCandidates, plan: &Plan) -> BTreeMap<(usize, usize), u32> {
    let mut pods = BTreeMap::new();
    for &(at, n) in &plan.pods {
        let pairing = &candidates.season.pairings[at];
        *pods
            .entry((pairing.seed, candidates.season.lots[pairing.lot].donor))
            .or_default() += n;
    }
    pods
}
