//! A plan bettered by moving one pod at a time.

use super::super::budget::Budget;
use super::super::season::Season;
use super::relations::{Point, Relations};

/// Pods moved one by one at most.
const MOVES: usize = 30;
/// How far a foretold gain may lie from the true one: rounding.
const ROUNDING: f64 = 1e-9;

/// Moves one pod at a time as long as that helps and the budget goes on.
pub(super) fn improved(
    season: &Season,
    relations: &Relations,
    mut point: Point,
    weight: f64,
    budget: &mut Budget,
) -> Point {
    for _ in 0..MOVES {
        match best_move(season, relations, (&point, weight), budget) {
            Some(moved) => point = moved,
            None => break,
        }
    }
    point
}

/// The best plan one pod away, if it is better. A move is worked out in full only where what it changes foretells a gain.
fn best_move(
    season: &Season,
    relations: &Relations,
    (point, weight): (&Point, f64),
    budget: &mut Budget,
) -> Option<Point> {
    let objective = |point: &Point| point.gain - weight * point.coancestry;
    let products = relations.products_of(season, &point.plan);
    let mut better: Option<Point> = None;
    for &(from, _) in &point.plan.pods {
        if !budget.goes_on() {
            break;
        }
        budget.spend(season.pairings.len());
        let open = |to: &usize| *to != from && season.open(&season.pairings[*to]);
        for to in (0..season.pairings.len()).filter(open) {
            let level = objective(better.as_ref().unwrap_or(point));
            let change = Change {
                from,
                to,
                pods: point.plan.total,
            };
            let gain =
                change.gain(season) - weight * change.coancestry(season, relations, &products);
            if objective(point) + gain < level - ROUNDING {
                continue;
            }
            let moved = relations.point(season, season.plan(moved(&point.plan.pods, from, to)));
            if objective(&moved) > level + 1e-12 && season.allows(&moved.plan) {
                better = Some(moved);
            }
        }
    }
    better
}

/// One pod moved from one pairing to another, in a plan of so many pods.
struct Change {
    from: usize,
    to: usize,
    pods: u32,
}

impl Change {
    /// By how much the mean value of a pod grows.
    fn gain(&self, season: &Season) -> f64 {
        let value = |at: usize| season.pairings[at].value;
        (value(self.to) - value(self.from)) / f64::from(self.pods)
    }

    /// By how much the group coancestry grows: 2dᵀΦc + dᵀΦd, where d is the change of the shares and `products` is Φc.
    fn coancestry(&self, season: &Season, relations: &Relations, products: &[f64]) -> f64 {
        let part = 0.5 / f64::from(self.pods);
        let signed = |at: usize, by: f64| Relations::parents(season, at).map(|parent| (parent, by));
        let [lost, won] = [signed(self.from, -part), signed(self.to, part)];
        let changes = [lost[0], lost[1], won[0], won[1]];
        let straight: f64 = changes
            .iter()
            .map(|&(parent, by)| by * products[parent])
            .sum();
        let pairs = changes
            .iter()
            .flat_map(|one| changes.iter().map(move |other| (one, other)));
        let bent: f64 = pairs
            .map(|(one, other)| one.1 * other.1 * relations.between(products.len(), one.0, other.0))
            .sum();
        2.0 * straight + bent
    }
}

fn moved(pods: &[(usize, u32)], from: usize, to: usize) -> Vec<(usize, u32)> {
    let mut moved = pods.to_vec();
    moved
        .iter_mut()
        .filter(|(at, _)| *at == from)
        .for_each(|(_, n)| *n -= 1);
    match moved.iter_mut().find(|(at, _)| *at == to) {
        Some((_, n)) => *n += 1,
        None => moved.push((to, 1)),
    }
    moved.retain(|&(_, n)| n > 0);
    moved.sort_unstable();
    moved
}
