//! The frontier: plans of which none beats another in both gain and kinship.

use super::super::budget::Budget;
use super::super::season::Season;
use super::listing::all_plans;
use super::relations::{Point, Relations};
use super::weighed::{Weighed, weighed};

/// Plans of which none has both more gain and less kinship than another.
#[derive(Clone, PartialEq, Debug)]
pub struct Frontier {
    /// Falling gain, falling kinship.
    pub points: Vec<Point>,
    /// Whether all plans were listed, so that nothing is missing.
    pub exact: bool,
    /// No plan with the kinship of one of these has more gain than it by more than this; 0 when exact or when no weight
    /// was reached.
    pub gap: f64,
    /// No plan with the gain of one of these has less kinship than it by more than this.
    pub kinship_gap: f64,
    /// Weights the budget did not reach.
    pub unreached: Vec<f64>,
}

/// What frontier is asked for.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct FrontierAsked<'a> {
    /// Pods of every plan.
    pub pods: u32,
    /// Weights on kinship to try where plans are not listed.
    pub weights: &'a [f64],
    /// Plans listed at most.
    pub listed: usize,
}

/// Those of some plans of which none has both more gain and less kinship than another; ties to the first given.
pub fn undominated(mut points: Vec<Point>) -> Vec<Point> {
    points.sort_by(|a, b| {
        b.gain
            .total_cmp(&a.gain)
            .then(a.coancestry.total_cmp(&b.coancestry))
    });
    let mut kept: Vec<Point> = Vec::new();
    for point in points {
        if kept
            .last()
            .is_none_or(|last| point.coancestry < last.coancestry - 1e-12)
        {
            kept.push(point);
        }
    }
    kept
}

/// The frontier of plans with exactly so many pods; exact if they can be listed, otherwise from the weights.
pub fn frontier(
    season: &Season,
    relations: &Relations,
    asked: FrontierAsked,
    budget: &mut Budget,
) -> Frontier {
    let mut fixed = season.clone();
    (fixed.limits.fewest_pods, fixed.limits.most_pods) = (asked.pods, Some(asked.pods));
    let listed = all_plans(&fixed, asked.listed, &mut || budget.goes_on());
    let Some(plans) = listed else {
        return weighed_frontier(season, relations, asked, budget);
    };
    let point = |plan| relations.point(season, plan);
    Frontier {
        points: undominated(plans.into_iter().map(point).collect()),
        exact: true,
        gap: 0.0,
        kinship_gap: 0.0,
        unreached: Vec::new(),
    }
}

fn weighed_frontier(
    season: &Season,
    relations: &Relations,
    asked: FrontierAsked,
    budget: &mut Budget,
) -> Frontier {
    let mut found: Vec<Weighed> = Vec::new();
    let mut unreached = Vec::new();
    for &weight in asked.weights {
        match weighed(season, relations, (asked.pods, weight), budget) {
            Some(weighed) => found.push(weighed),
            None if !budget.goes_on() => unreached.push(weight),
            None => {}
        }
    }
    let points = undominated(found.iter().map(|w| w.point.clone()).collect());
    let most = season
        .pairings
        .iter()
        .filter(|pairing| season.open(pairing))
        .map(|pairing| pairing.value)
        .fold(f64::NEG_INFINITY, f64::max);
    let gaps = points.iter().map(|point| gaps(&found, most, point));
    let (gap, kinship_gap) = gaps.fold((0.0, 0.0), |widest: (f64, f64), gap| {
        (widest.0.max(gap.0), widest.1.max(gap.1))
    });
    Frontier {
        gap,
        kinship_gap,
        points,
        exact: false,
        unreached,
    }
}

/// By how much a plan could beat a point in gain at its kinship, and in kinship at its gain: each weight λ bounds
/// `gain − λ·kinship`; no mean is above the best pod's value, no kinship below 0.
fn gaps(found: &[Weighed], most: f64, point: &Point) -> (f64, f64) {
    let gain = found
        .iter()
        .map(|w| w.bound + w.weight * point.coancestry)
        .fold(most, f64::min);
    let kinship = found
        .iter()
        .filter(|w| w.weight > 0.0)
        .map(|w| (point.gain - w.bound) / w.weight)
        .fold(0.0, f64::max);
    (
        (gain - point.gain).max(0.0),
        (point.coancestry - kinship).max(0.0),
    )
}
