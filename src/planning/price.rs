//! What does each limit cost?
//!
//! The season is solved again with one limit eased; the gain is what the limit costs. Only limits the best plan runs
//! into are tried, since easing any other one changes nothing.

use super::budget::Budget;
use super::search::Asked;
use super::season::{Plan, Season};

/// A limit of a season.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Limit {
    /// The pots: eased by one pod of the largest kind.
    Pots,
    /// The most pods in all: one more.
    MostPods,
    /// The fewest pods in all: taken away.
    FewestPods,
    /// Pods of a seed parent: one more.
    SeedParent(usize),
    /// Uses of a donor: one more.
    Donor(usize),
    /// Uses of a pollen lot: one more.
    Lot(usize),
    /// The cap on inbreeding: taken away.
    Inbreeding,
    /// The cap on mean kinship with what is kept: taken away.
    MeanKinship,
    /// A demand: need not be met.
    Must(usize),
    /// A pairing that is ruled out: its two plants allowed, with every lot of that donor.
    Forbidden(usize),
    /// A line that must be kept through a seed parent: need not.
    LineThroughSeed(u32),
    /// A line that must be kept through a donor: need not.
    LineThroughPollen(u32),
}

/// What easing a limit gains.
#[derive(Clone, PartialEq, Debug)]
pub struct Price {
    /// The limit.
    pub limit: Limit,
    /// The best plan without it.
    pub plan: Plan,
    /// By how much that is better, at least 0.
    pub gain: f64,
    /// By how much it could be better at most; the same when proved.
    pub most: f64,
    /// Whether the gain is proved to be the largest.
    pub proved: bool,
}

/// The limits a plan runs into.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Prices {
    /// What each costs.
    pub priced: Vec<Price>,
    /// Those the budget did not reach.
    pub unreached: Vec<Limit>,
}

/// The season with a limit eased.
pub fn eased(season: &Season, limit: Limit) -> Season {
    let mut eased = season.clone();
    let limits = &mut eased.limits;
    match limit {
        Limit::Pots => {
            let largest = season
                .pairings
                .iter()
                .map(|pairing| u64::from(pairing.pots))
                .max();
            limits.pots = limits.pots.map(|pots| pots + largest.unwrap_or(0));
        }
        Limit::MostPods => limits.most_pods = limits.most_pods.map(|most| most + 1),
        Limit::FewestPods => limits.fewest_pods = 0,
        Limit::SeedParent(at) => {
            eased.seed_parents[at].pods += 1;
            let shared = eased.shared_spikes.iter_mut();
            let of_parent = shared.filter(|of| season.seed_of(of) == Some(at));
            of_parent.for_each(|of| of.most += 1);
            let pairings = eased.pairings.iter_mut().filter(|of| of.seed == at);
            pairings.for_each(|of| of.most = of.most.saturating_add(u32::from(of.most > 0)));
        }
        Limit::Donor(at) => eased.donors[at].uses += 1,
        Limit::Lot(at) => eased.lots[at].uses += 1,
        Limit::Inbreeding => limits.inbreeding = None,
        Limit::MeanKinship => limits.mean_kinship = None,
        Limit::Must(at) => eased.demands[at].least = 0,
        Limit::Forbidden(at) => {
            let plants = plants(season, at);
            let same =
                (0..season.pairings.len()).filter(|&other| self::plants(season, other) == plants);
            same.for_each(|other| eased.pairings[other].forbidden = false);
        }
        Limit::LineThroughSeed(line) => limits.lines_through_seed.retain(|&kept| kept != line),
        Limit::LineThroughPollen(line) => limits.lines_through_pollen.retain(|&kept| kept != line),
    }
    eased
}

/// Seed parent and donor of a pairing.
fn plants(season: &Season, pairing: usize) -> (usize, usize) {
    let pairing = &season.pairings[pairing];
    (pairing.seed, season.lots[pairing.lot].donor)
}

/// Limits that may cost the plan something: those it runs into, and all that cannot be told by how full they are.
pub fn reached(season: &Season, plan: &Plan) -> Vec<Limit> {
    let mut found = pods_in_all(season, plan);
    found.extend(plants_in_full(season, plan));
    found.extend(however_full(season));
    found
}

/// The limits on the whole plan that it runs into.
fn pods_in_all(season: &Season, plan: &Plan) -> Vec<Limit> {
    let limits = &season.limits;
    let pots = season.pairings.iter().map(|of| u64::from(of.pots));
    let largest = pots.max().unwrap_or(0);
    let is_full = |pots| plan.pots + largest > pots;
    let all = [
        (Limit::Pots, limits.pots.is_some_and(is_full)),
        (
            Limit::MostPods,
            limits.most_pods.is_some_and(|most| plan.total >= most),
        ),
        (Limit::FewestPods, limits.fewest_pods > 0),
    ];
    let reached = all.into_iter().filter(|(_, reached)| *reached);
    reached.map(|(limit, _)| limit).collect()
}

/// The plants and pollen lots of which the plan uses all there is.
fn plants_in_full(season: &Season, plan: &Plan) -> Vec<Limit> {
    let pods = |of: &dyn Fn(usize) -> bool| -> u64 {
        let pods = plan.pods.iter().filter(|&&(at, _)| of(at));
        pods.map(|&(_, n)| u64::from(n)).sum()
    };
    let is_full = |most: u32, of: &dyn Fn(usize) -> bool| most > 0 && pods(of) >= u64::from(most);
    let lot = |at: usize| season.pairings[at].lot;
    let spikes_full = |seed: usize| {
        let mut spikes = season.shared_spikes.iter();
        spikes.any(|of| {
            season.seed_of(of) == Some(seed) && pods(&|p| of.holds(p)) >= u64::from(of.most)
        })
    };
    let mut found = Vec::new();
    for (at, parent) in season.seed_parents.iter().enumerate() {
        let is_of = |p: usize| season.pairings[p].seed == at;
        if is_full(parent.pods, &is_of) || parent.pods > 0 && spikes_full(at) {
            found.push(Limit::SeedParent(at));
        }
    }
    let donors = season.donors.iter().enumerate();
    let donors =
        donors.filter(|(at, donor)| is_full(donor.uses, &|p| season.lots[lot(p)].donor == *at));
    found.extend(donors.map(|(at, _)| Limit::Donor(at)));
    let lots = season.lots.iter().enumerate();
    let lots = lots.filter(|(at, pollen)| is_full(pollen.uses, &|p| lot(p) == *at));
    found.extend(lots.map(|(at, _)| Limit::Lot(at)));
    found
}

/// The limits that may cost something whatever the plan. Pods of unlike size may leave a demand more than met and still poorer
/// than without it: its pots were all it cost.
fn however_full(season: &Season) -> Vec<Limit> {
    let limits = &season.limits;
    let mut found = Vec::new();
    found.extend(limits.inbreeding.map(|_| Limit::Inbreeding));
    found.extend(limits.mean_kinship.map(|_| Limit::MeanKinship));
    found.extend((0..season.demands.len()).map(Limit::Must));
    let is_forbidden = |at: &usize| season.pairings[*at].forbidden;
    let is_first = |at: &usize| {
        let mut before = (0..*at).filter(is_forbidden);
        before.all(|other| plants(season, other) != plants(season, *at))
    };
    let forbidden = (0..season.pairings.len()).filter(is_forbidden);
    found.extend(forbidden.filter(is_first).map(Limit::Forbidden));
    let (seed, pollen) = (&limits.lines_through_seed, &limits.lines_through_pollen);
    found.extend(seed.iter().copied().map(Limit::LineThroughSeed));
    found.extend(pollen.iter().copied().map(Limit::LineThroughPollen));
    found
}

/// What each limit costs that the best plan runs into, in the order of [`reached`]; each is solved within `steps`, all
/// within the budget.
pub fn prices(season: &Season, best: &Plan, steps: u64, budget: &mut Budget) -> Prices {
    let mut prices = Prices::default();
    for limit in reached(season, best) {
        let price = budget
            .goes_on()
            .then(|| price(season, best, (limit, steps), budget));
        match price.flatten() {
            Some(price) => prices.priced.push(price),
            None => prices.unreached.push(limit),
        }
    }
    prices
}

/// The price of one limit; `None` if no plan was found in time.
fn price(
    season: &Season,
    best: &Plan,
    (limit, steps): (Limit, u64),
    budget: &mut Budget,
) -> Option<Price> {
    let asked = Asked {
        steps,
        ..Asked::default()
    };
    let found = budget.search(&eased(season, limit), asked);
    let bound = found.bound - best.value;
    let plan = found.plans.into_iter().next()?;
    let gain = (plan.value - best.value).max(0.0);
    Some(Price {
        limit,
        plan,
        gain,
        most: if found.proved { gain } else { bound.max(gain) },
        proved: found.proved,
    })
}
