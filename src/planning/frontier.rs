//! How much gain does a season give up for less kinship?
//!
//! Gain is the mean value of a pod; kinship is the group coancestry `cᵀΦc` of the parents, each weighted by its share of
//! the seedlings' genes. Where all plans can be listed the frontier is exact. Otherwise plans are sought by weighing
//! kinship more and more (Frank & Wolfe 1956 on the season's own optimum), and every weight states the bound that holds.

use super::search::{Asked, search};
use super::season::{Plan, Season};

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
    /// Plans with the same objective, when all were listed.
    pub ties: Option<usize>,
}

/// Plans of which none has both more gain and less kinship than another.
#[derive(Clone, PartialEq, Debug)]
pub struct Frontier {
    /// Falling gain, falling kinship.
    pub points: Vec<Point>,
    /// Whether all plans were listed, so that nothing is missing.
    pub exact: bool,
    /// The widest gap between a plan and the bound of its weight; 0 when exact.
    pub gap: f64,
}

impl Relations<'_> {
    fn count(season: &Season) -> usize {
        season.seed_parents.len() + season.donors.len()
    }

    fn parents(season: &Season, pairing: usize) -> [usize; 2] {
        let pairing = &season.pairings[pairing];
        [
            pairing.seed,
            season.seed_parents.len() + season.lots[pairing.lot].donor,
        ]
    }

    /// Shares of the parents in the seedlings' genes.
    fn shares(season: &Season, pods: impl Iterator<Item = (usize, f64)>) -> Vec<f64> {
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

    fn products(&self, shares: &[f64]) -> Vec<f64> {
        let rows = self.kinship.chunks_exact(shares.len());
        rows.map(|row| row.iter().zip(shares).map(|(k, c)| k * c).sum())
            .collect()
    }

    fn coancestry(&self, shares: &[f64]) -> f64 {
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

/// All plans of a season, or `None` if there are more than `most` (or too many to look through).
pub fn all_plans(season: &Season, most: usize) -> Option<Vec<Plan>> {
    let open: Vec<usize> = (0..season.pairings.len())
        .filter(|&at| season.open(&season.pairings[at]))
        .collect();
    let mut left = Left::of(season);
    let mut pods = vec![0u32; open.len()];
    let (mut plans, mut total) = (Vec::new(), 0);
    let mut looks = 0usize;
    loop {
        looks += 1;
        if looks > most.saturating_mul(64) {
            return None;
        }
        if total >= season.limits.fewest_pods {
            let given = open.iter().zip(&pods).filter(|(_, n)| **n > 0);
            let plan = season.plan(given.map(|(&at, &n)| (at, n)).collect());
            if season.allows(&plan) {
                plans.push(plan);
            }
            if plans.len() > most {
                return None;
            }
        }
        // Counting on, as an odometer does: the first place that can take one more takes it, those before go back.
        let mut at = 0;
        while at < open.len() && !left.take(season, open[at], pods[at]) {
            left.give_back(season, open[at], pods[at]);
            total -= std::mem::take(&mut pods[at]);
            at += 1;
        }
        if at == open.len() {
            return Some(plans);
        }
        pods[at] += 1;
        total += 1;
    }
}

struct Left {
    seeds: Vec<u32>,
    lots: Vec<u32>,
    donors: Vec<u32>,
    pods: u32,
}

impl Left {
    fn of(season: &Season) -> Self {
        Self {
            seeds: season.seed_parents.iter().map(|s| s.pods).collect(),
            lots: season.lots.iter().map(|l| l.uses).collect(),
            donors: season.donors.iter().map(|d| d.uses).collect(),
            pods: season.limits.most_pods.unwrap_or(u32::MAX),
        }
    }

    fn take(&mut self, season: &Season, at: usize, now: u32) -> bool {
        let pairing = &season.pairings[at];
        let donor = season.lots[pairing.lot].donor;
        let limits = [
            &mut self.seeds[pairing.seed],
            &mut self.lots[pairing.lot],
            &mut self.donors[donor],
            &mut self.pods,
        ];
        if now >= pairing.most || limits.iter().any(|left| **left == 0) {
            return false;
        }
        limits.into_iter().for_each(|left| *left -= 1);
        true
    }

    fn give_back(&mut self, season: &Season, at: usize, pods: u32) {
        let pairing = &season.pairings[at];
        self.seeds[pairing.seed] += pods;
        self.lots[pairing.lot] += pods;
        self.donors[season.lots[pairing.lot].donor] += pods;
        self.pods = self.pods.saturating_add(pods);
    }
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

/// The best plan under a weight on kinship, out of a full list.
pub fn weighed_exactly(points: &[Point], weight: f64) -> Option<Weighed> {
    let objective = |point: &Point| point.gain - weight * point.coancestry;
    let best = points
        .iter()
        .map(&objective)
        .fold(f64::NEG_INFINITY, f64::max);
    let level = best - 1e-9 * (1.0 + best.abs());
    let tied = || points.iter().filter(|point| objective(point) >= level);
    let order = |a: &&Point, b: &&Point| {
        a.plan
            .mean_inbreeding
            .total_cmp(&b.plan.mean_inbreeding)
            .then_with(|| a.plan.pods.cmp(&b.plan.pods))
    };
    let point = tied().min_by(order)?.clone();
    Some(Weighed {
        weight,
        objective: best,
        bound: best,
        ties: Some(tied().count()),
        point,
    })
}

/// Rounds of Frank & Wolfe for each weight.
const ROUNDS: usize = 24;
/// Plans looked at under the last tangent.
const LOOKED_AT: usize = 100;
/// Pods moved one by one at most.
const MOVES: usize = 30;
/// Most networks for one tangent.
const STEPS: u64 = 4_000;

/// A good plan of exactly `pods` pods under a weight on kinship, with the bound that no such plan exceeds; `None` if no
/// plan has that many pods or none was found within the steps allowed.
pub fn weighed(season: &Season, relations: &Relations, pods: u32, weight: f64) -> Option<Weighed> {
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
        let target = dense(season, &sought.under_tangent(&amounts, 1)?);
        let step = 2.0 / (round as f64 + 2.0);
        amounts
            .iter_mut()
            .zip(&target)
            .for_each(|(now, to)| *now += step * (to - *now));
    }
    sought.under_tangent(&amounts, LOOKED_AT)?;
    let point = improved(season, relations, sought.best.take()?, weight);
    let objective = sought.objective(&point);
    Some(Weighed {
        weight,
        objective,
        bound: sought.bound.max(objective),
        ties: None,
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
    fn under_tangent(&mut self, amounts: &[f64], plans: usize) -> Option<Vec<(usize, u32)>> {
        let shares = Relations::shares(self.season, amounts.iter().copied().enumerate());
        let slope = self.relations.products(&shares);
        let per_pod = 1.0 / f64::from(self.fixed.limits.fewest_pods.max(1));
        for (at, pairing) in self.fixed.pairings.iter_mut().enumerate() {
            let parents = Relations::parents(self.season, at);
            let kin: f64 = parents.iter().map(|&parent| slope[parent]).sum();
            pairing.value = per_pod * (self.season.pairings[at].value - self.weight * kin);
        }
        let found = search(
            &self.fixed,
            Asked {
                plans,
                ties: 0,
                steps: STEPS,
            },
            &mut |_| true,
        );
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

/// Moves one pod at a time as long as that helps.
fn improved(season: &Season, relations: &Relations, mut point: Point, weight: f64) -> Point {
    let objective = |point: &Point| point.gain - weight * point.coancestry;
    for _ in 0..MOVES {
        let mut better: Option<Point> = None;
        for &(from, _) in &point.plan.pods {
            for to in (0..season.pairings.len())
                .filter(|&to| to != from && season.open(&season.pairings[to]))
            {
                let moved = relations.point(season, season.plan(moved(&point.plan.pods, from, to)));
                let level = objective(better.as_ref().unwrap_or(&point)) + 1e-12;
                if objective(&moved) > level && season.allows(&moved.plan) {
                    better = Some(moved);
                }
            }
        }
        match better {
            Some(moved) => point = moved,
            None => break,
        }
    }
    point
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

/// The frontier of plans with exactly `pods` pods; exact if there are at most `most` of them, otherwise from the given
/// weights.
pub fn frontier(
    season: &Season,
    relations: &Relations,
    pods: u32,
    weights: &[f64],
    most: usize,
) -> Frontier {
    let mut fixed = season.clone();
    (fixed.limits.fewest_pods, fixed.limits.most_pods) = (pods, Some(pods));
    if let Some(plans) = all_plans(&fixed, most) {
        let points = plans
            .into_iter()
            .map(|plan| relations.point(season, plan))
            .collect();
        return Frontier {
            points: undominated(points),
            exact: true,
            gap: 0.0,
        };
    }
    let found: Vec<Weighed> = weights
        .iter()
        .filter_map(|&weight| weighed(season, relations, pods, weight))
        .collect();
    Frontier {
        gap: found
            .iter()
            .map(|w| w.bound - w.objective)
            .fold(0.0, f64::max),
        points: undominated(found.into_iter().map(|w| w.point).collect()),
        exact: false,
    }
}
