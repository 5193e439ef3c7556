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
    /// The widest gap between a plan and the bound of its weight; 0 when exact or when no weight was reached.
    pub gap: f64,
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
    let gaps = found.iter().map(|w| w.bound - w.objective);
    Frontier {
        gap: gaps.fold(0.0, f64::max),
        points: undominated(found.into_iter().map(|w| w.point).collect()),
        exact: false,
        unreached,
    }
}
