//! Gain against kinship: the frontier and its picture.

use crate::analysis::plan::candidates::SeasonCandidates;
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::others::same_worth;
use crate::analysis::plan::work::{Stage, Work};
use crate::planning::frontier::{FrontierAsked, Point, Relations, frontier};
use crate::planning::season::Plan;
use serde::Serialize;

/// One plan on the frontier.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct FrontierPlan {
    /// Mean kinship.
    pub kinship: f64,
    /// Gain.
    pub gain: f64,
    /// What it is called.
    pub label: FrontierLabel,
    /// Whether it is the plan proposed.
    pub chosen: bool,
}

/// What a plan on the frontier is called.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum FrontierLabel {
    /// The plan proposed.
    ThePlan,
    /// Worth as much, with less kinship.
    AsGood,
    /// Any other.
    #[default]
    None,
}

/// Plans listed one by one for an exact frontier.
const LISTED: usize = 20_000;
/// Weights on kinship tried where plans are too many to list.
pub const WEIGHTS: [f64; 9] = [0.0, 0.5, 1.0, 2.0, 5.0, 10.0, 25.0, 60.0, 150.0];

/// Plans with as many pods that no other beats in both.
pub(crate) struct Gain {
    pub plans: Vec<FrontierPlan>,
    /// Whether all plans were looked at.
    pub exact: bool,
    /// In mean worth, and in kinship.
    pub gap: Option<(f64, f64)>,
    /// Plans worth as much as the one shown with less kinship among their parents.
    pub as_good: Vec<Plan>,
    /// Weights the budget did not reach.
    pub unreached: usize,
}

impl Gain {
    pub fn none() -> Gain {
        Gain {
            plans: Vec::new(),
            exact: true,
            gap: Some((0.0, 0.0)),
            as_good: Vec::new(),
            unreached: 0,
        }
    }
}

impl PlanContext<'_, '_, '_> {
    /// The frontier of plans with as many pods, the best one marked.
    pub fn frontier(&self, candidates: &SeasonCandidates, best: &Plan, work: &mut Work) -> Gain {
        work.stage.set(Stage::Frontier);
        let kinship = self.among_parents(candidates);
        let relations = Relations { kinship: &kinship };
        let asked = FrontierAsked {
            pods: best.total,
            weights: &WEIGHTS,
            listed: LISTED,
        };
        let found = frontier(&candidates.season, &relations, asked, &mut work.budget);
        let chosen = relations.point(&candidates.season, best.clone());
        Gain {
            plans: drawn(&found.points, &chosen),
            exact: found.exact,
            gap: (found.unreached.len() < WEIGHTS.len()).then_some((found.gap, found.kinship_gap)),
            as_good: found
                .points
                .iter()
                .filter(|point| is_as_good(point, &chosen))
                .map(|point| point.plan.clone())
                .collect(),
            unreached: found.unreached.len(),
        }
    }
}

impl PlanContext<'_, '_, '_> {
    /// Kinship of all parents of a season, row by row.
    fn among_parents(&self, candidates: &SeasonCandidates) -> Vec<f64> {
        let parents: Vec<_> = candidates
            .seeds
            .iter()
            .chain(&candidates.donors)
            .copied()
            .collect();
        let table = self.kinship.table(&parents);
        (0..parents.len())
            .flat_map(|row| table.row(row).iter().copied())
            .collect()
    }

    /// Plans in order with those that tie in worth, inbreeding, sureness and freshness put by the kinship among their parents.
    pub fn least_kin_first(&self, candidates: &SeasonCandidates, plans: Vec<Plan>) -> Vec<Plan> {
        let Some(best) = plans.first().cloned() else {
            return plans;
        };
        let kinship = self.among_parents(candidates);
        let relations = Relations { kinship: &kinship };
        let season = &candidates.season;
        let alike = |plan: &Plan| {
            same_worth(candidates, plan, &best)
                && season.pods_that_may_not_meet(plan) == season.pods_that_may_not_meet(&best)
                && season.guessed_sexes(plan) == season.guessed_sexes(&best)
                && near(plan.mean_inbreeding, best.mean_inbreeding)
                && near(season.staleness(plan), season.staleness(&best))
        };
        let (mut first, rest): (Vec<Plan>, Vec<Plan>) = plans.into_iter().partition(alike);
        let kinship = |plan: &Plan| relations.point(&candidates.season, plan.clone()).coancestry;
        // Rounded, so that equals stay in the order of their codes.
        first.sort_by_cached_key(|plan| libm::round(1e12 * kinship(plan)) as i64);
        first.extend(rest);
        first
    }
}

/// Whether two figures differ by rounding alone.
fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9 * (1.0 + b.abs())
}

/// Whether a plan is worth as much as the one shown and has less kinship among its parents.
fn is_as_good(point: &Point, chosen: &Point) -> bool {
    near(point.gain, chosen.gain)
        && point.coancestry < chosen.coancestry
        && !near(point.coancestry, chosen.coancestry)
}

/// Points as they are drawn, by kinship, with the plan among them.
fn drawn(points: &[Point], chosen: &Point) -> Vec<FrontierPlan> {
    let is_chosen =
        |point: &Point| near(point.coancestry, chosen.coancestry) && near(point.gain, chosen.gain);
    let known = points.iter().any(is_chosen);
    let all = points.iter().chain((!known).then_some(chosen));
    let mut plans: Vec<FrontierPlan> = all
        .map(|point| FrontierPlan {
            kinship: point.coancestry,
            gain: point.gain,
            label: if is_chosen(point) {
                FrontierLabel::ThePlan
            } else if is_as_good(point, chosen) {
                FrontierLabel::AsGood
            } else {
                FrontierLabel::None
            },
            chosen: is_chosen(point),
        })
        .collect();
    plans.sort_by(|a, b| {
        a.kinship
            .total_cmp(&b.kinship)
            .then(a.gain.total_cmp(&b.gain))
    });
    plans
}
