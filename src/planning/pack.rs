//! The best that a season of unlike pods could be worth.
//!
//! Where pods take unlike numbers of pots, a price on pots bounds loosely: pots are whole and pods do not fill them
//! evenly. So pots and seed parents are kept to exactly, by the knapsack recursion over bundles, and all else is priced
//! ([`Duties`]). Any prices bound every plan from above (Geoffrion 1974: never worse than a price on pots, and better
//! where pots bind); good ones are found by subgradient steps (Held, Wolfe & Crowder 1974; direction as in Camerini,
//! Fratta & Maffioli 1975). All sums are whole numbers, so the bounds carry no rounding.

use super::bundle::{Bundle, Filled, Unit, bundles, joined};
use super::domain::Domain;
use super::duties::Duties;
use super::lagrangian_bound::{Prices, Relaxation};
use super::relax::{Priced, steps_for};
use super::units::IntegerModel;
use std::rc::Rc;

/// Bits of a price behind the point.
const PRICE_BITS: u32 = 40;
/// Most price changes for a season and for a part of it whose prices start from those of a larger part.
const ROUNDS: (usize, usize) = (600, 40);
/// Changes without a better bound after which steps get shorter, for each of the two.
const PATIENCE: (usize, usize) = (20, 6);
/// Steps shorter than this part of the first end the search for prices.
const SHORTEST: f64 = 0.02;
/// Plans nearly as good that are remembered.
const REMEMBERED: usize = 12;
/// Of the part of a pod that the plans met give a choice, how much comes from the last of them.
const LATEST: f64 = 0.12;

/// Prices beyond this outweigh any pod sixteen times; all prices of a pod together then stay far from overflow.
const DEAREST: f64 = (1u64 << 42) as f64;

/// The lowest bound found for a domain; `None` if it holds no plan at all. Stops early once the bound falls below
/// `enough`.
pub(super) fn packing_bound(
    model: &IntegerModel,
    duties: &Duties,
    (domain, warm): (&Domain, Option<&Prices>),
    enough: i64,
) -> Option<Relaxation> {
    let packing = Packing::of(model, duties, domain)?;
    let mut walk = Walk::new(&packing, warm);
    let (rounds, patience) = if warm.is_some() {
        (ROUNDS.1, PATIENCE.1)
    } else {
        (ROUNDS.0, PATIENCE.0)
    };
    let mut steps = 0;
    for _ in 0..rounds {
        let met = packing.under(&walk.whole);
        steps += steps_for(packing.looks);
        if !walk.learns(&packing, met, patience) || walk.best().bound < enough {
            break;
        }
        if !walk.moves_on(&packing, enough) {
            break;
        }
    }
    let (prices, met) = walk.best.take()?;
    let branch = packing.branch(&walk.mean);
    let loss = if met.bound < enough {
        Vec::new()
    } else {
        packing.losses(&met)
    };
    Some(Relaxation {
        best: Priced {
            bound: met.bound,
            sent: met.sent,
            loss,
            steps,
        },
        others: walk.others,
        fitting: walk.fitting,
        branch,
        prices: Some(Rc::new(prices)),
        steps,
    })
}

/// A domain made ready for packing.
struct Packing<'q> {
    model: &'q IntegerModel,
    duties: &'q Duties,
    least: &'q [u32],
    /// Pods each choice may still get.
    ranges: Vec<u32>,
    /// Choices that may still get pods, by seed parent.
    of_seed: Vec<Vec<usize>>,
    /// Pods each seed parent may still bear.
    pods: Vec<u32>,
    /// Pots left, in the largest unit all pods are whole numbers of.
    pots: usize,
    unit: i64,
    looks: u64,
}

/// The best plan under some prices, and what it was made of.
struct Met {
    bound: i64,
    sent: Vec<u32>,
    worths: Vec<i64>,
    bundles: Vec<Vec<Bundle>>,
}

impl<'q> Packing<'q> {
    fn of(model: &'q IntegerModel, duties: &'q Duties, domain: &'q Domain) -> Option<Self> {
        let load = model.pots_load()?;
        let ranges = duties.ranges(model, domain)?;
        let mut pods = model.seed_pods.clone();
        for (choice, &least) in model.choices.iter().zip(&domain.least) {
            pods[choice.seed] = pods[choice.seed].checked_sub(least)?;
        }
        let room = model.room(load, &domain.least);
        if room < 0 {
            return None;
        }
        let size = |at: usize| model.choices[at].loads[load];
        let free = |at: &usize| {
            let seed = model.choices[*at].seed;
            ranges[*at] > 0 && pods[seed] > 0 && i128::from(size(*at)) <= room
        };
        let free: Vec<usize> = (0..ranges.len()).filter(free).collect();
        let unit = free
            .iter()
            .fold(0, |unit, &at| num_integer::gcd(unit, size(at)));
        let unit = unit.max(1);
        let mut of_seed = vec![Vec::new(); pods.len()];
        free.iter()
            .for_each(|&at| of_seed[model.choices[at].seed].push(at));
        let most: i128 = free
            .iter()
            .map(|&at| i128::from(size(at)) * i128::from(ranges[at]))
            .sum();
        let pots = (room.min(most) / i128::from(unit)) as usize;
        let looks = free.len() as u64 + (pots as u64 + 1) * 2 * of_seed.len() as u64;
        Some(Self {
            model,
            duties,
            least: &domain.least,
            ranges,
            of_seed,
            pods,
            pots,
            unit,
            looks,
        })
    }

    fn size(&self, at: usize) -> usize {
        let load = self.model.pots_load().expect("packing is for unlike pods");
        (self.model.choices[at].loads[load] / self.unit) as usize
    }

    /// Worth of a pod under prices, rounded up.
    fn worth(&self, at: usize, prices: &Prices) -> i64 {
        let rows = self.duties.of_choice(at).iter();
        let paid: i128 = rows
            .map(|&(row, weight)| prices[row as usize] * i128::from(weight))
            .sum();
        // No price is so dear that this would not fit: a worth cut short would make a bound that does not hold.
        (i128::from(self.model.choices[at].value) - (paid >> PRICE_BITS)) as i64
    }

    /// What a seed parent could bear in so many pods.
    fn bundles(&self, seed: usize, pods: u32, worths: &[i64]) -> Vec<Bundle> {
        let item = |&at: &usize| Unit {
            choice: at,
            worth: worths[at],
            pots: self.size(at),
            most: self.ranges[at],
        };
        let mut items: Vec<Unit> = self.of_seed[seed].iter().map(item).collect();
        bundles(&mut items, pods, self.pots)
    }

    fn under(&self, prices: &Prices) -> Met {
        let worths: Vec<i64> = (0..self.ranges.len())
            .map(|at| self.worth(at, prices))
            .collect();
        let of_seed = |seed: usize| self.bundles(seed, self.pods[seed], &worths);
        let bundles: Vec<Vec<Bundle>> = (0..self.pods.len()).map(of_seed).collect();
        let active: Vec<&Vec<Bundle>> = bundles.iter().filter(|list| list.len() > 1).collect();
        let filled = Filled::of(self.pots, active.iter().copied());
        let mut sent = self.least.to_vec();
        for (list, chosen) in active.iter().zip(filled.best(&active)) {
            list[chosen].picks.iter().for_each(|&at| sent[at] += 1);
        }
        let rows = self.duties.rows.iter().zip(prices);
        let paid: i128 = rows.map(|(row, price)| i128::from(row.room) * price).sum();
        let made = self.least.iter().zip(&worths);
        let made: i64 = made.map(|(&n, worth)| i64::from(n) * worth).sum();
        let paid = -((-paid) >> PRICE_BITS);
        let paid = paid.clamp(i128::from(i64::MIN / 4), i128::from(i64::MAX / 4)) as i64;
        Met {
            bound: paid + made + filled.after[active.len()][self.pots],
            sent,
            worths,
            bundles,
        }
    }

    /// For each choice by how much the bound falls at least when one more pod is forced on it.
    fn losses(&self, met: &Met) -> Vec<i64> {
        let active: Vec<usize> = (0..met.bundles.len())
            .filter(|&seed| met.bundles[seed].len() > 1)
            .collect();
        let lists = || active.iter().map(|&seed| &met.bundles[seed]);
        let before = Filled::of(self.pots, lists()).after;
        let after = Filled::of(self.pots, lists().rev()).after;
        let best = before[active.len()][self.pots];
        let mut loss = vec![i64::MAX; self.ranges.len()];
        for seed in (0..self.of_seed.len()).filter(|&seed| !self.of_seed[seed].is_empty()) {
            let others = match active.binary_search(&seed) {
                Ok(place) => joined(&before[place], &after[active.len() - 1 - place]),
                Err(_) => before[active.len()].clone(),
            };
            let one_less = self.bundles(seed, self.pods[seed] - 1, &met.worths);
            for &at in &self.of_seed[seed] {
                let left = self.pots - self.size(at);
                let beside = one_less.iter().filter(|bundle| bundle.pots <= left);
                let most = beside.map(|bundle| bundle.worth + others[left - bundle.pots]);
                let forced = most.max().unwrap_or(i64::MIN / 2) + met.worths[at];
                loss[at] = best.saturating_sub(forced).max(0);
            }
        }
        loss
    }

    /// Where to cut the domain in two: the choice of which the plans met have most nearly half a pod, and its fewer pods.
    fn branch(&self, mean: &[f64]) -> Option<(usize, u32)> {
        let half = |at: usize| {
            let part = mean[at] - libm::floor(mean[at]);
            part.min(1.0 - part)
        };
        let free = (0..mean.len()).filter(|&at| self.ranges[at] > 0 && half(at) > 0.02);
        let weight = |at: usize| half(at) * (1.0 + self.size(at) as f64);
        let most = free.max_by(|&a, &b| weight(a).total_cmp(&weight(b)).then(b.cmp(&a)))?;
        Some((most, libm::floor(mean[most]) as u32))
    }
}

/// The search for prices under which the bound is lowest.
struct Walk {
    prices: Vec<f64>,
    whole: Prices,
    /// The direction of the last step.
    direction: Vec<f64>,
    length: f64,
    idle: usize,
    best: Option<(Prices, Met)>,
    last: (i64, Vec<i128>),
    /// Pods the plans met give each choice, the latest counting most.
    mean: Vec<f64>,
    fitting: Vec<Vec<u32>>,
    others: Vec<Vec<u32>>,
}

impl Walk {
    fn new(packing: &Packing, warm: Option<&Prices>) -> Self {
        let rows = packing.duties.rows.iter();
        let whole = warm.cloned().unwrap_or_else(|| rows.map(|_| 0).collect());
        let scale = |(price, row): (&i128, &super::duties::Row)| {
            libm::ldexp(*price as f64, -(PRICE_BITS as i32)) * row.unit
        };
        Self {
            prices: whole.iter().zip(&packing.duties.rows).map(scale).collect(),
            direction: vec![0.0; whole.len()],
            length: if warm.is_some() { 0.7 } else { 1.4 },
            idle: 0,
            best: None,
            last: (0, Vec::new()),
            mean: Vec::new(),
            fitting: Vec::new(),
            others: Vec::new(),
            whole,
        }
    }

    fn best(&self) -> &Met {
        &self.best.as_ref().expect("a plan was met").1
    }

    /// Takes in the best plan under the prices; `false` when steps have become too short to go on.
    fn learns(&mut self, packing: &Packing, met: Met, patience: usize) -> bool {
        let room = packing.duties.room(&met.sent);
        if self.mean.is_empty() {
            self.mean = met.sent.iter().map(|&n| f64::from(n)).collect();
        }
        for (mean, &n) in self.mean.iter_mut().zip(&met.sent) {
            *mean += LATEST * (f64::from(n) - *mean);
        }
        let crowded = packing.model.crowded_spikes(&met.sent).is_some();
        if !crowded && room.iter().all(|room| *room >= 0) {
            self.fitting.push(met.sent.clone());
        }
        self.last = (met.bound, room);
        let better = self.best.is_none() || met.bound < self.best().bound;
        if better {
            if self.others.len() == REMEMBERED {
                self.others.remove(0);
            }
            self.others.push(met.sent.clone());
            self.best = Some((self.whole.clone(), met));
            self.idle = 0;
        } else {
            self.idle += 1;
            if self.idle >= patience {
                self.idle = 0;
                self.length *= 0.6;
            }
        }
        self.length > SHORTEST
    }

    /// Changes the prices; `false` when no change could lower the bound.
    fn moves_on(&mut self, packing: &Packing, enough: i64) -> bool {
        let (bound, room) = &self.last;
        let rows = &packing.duties.rows;
        let slope: Vec<f64> = (room.iter().zip(rows).zip(&self.prices))
            .map(|((room, row), price)| {
                let slope = *room as f64 / row.unit;
                // A price of nothing cannot fall.
                if slope > 0.0 && *price <= 0.0 {
                    0.0
                } else {
                    slope
                }
            })
            .collect();
        let dot = |a: &[f64], b: &[f64]| a.iter().zip(b).map(|(a, b)| a * b).sum::<f64>();
        let (against, long) = (
            dot(&slope, &self.direction),
            dot(&self.direction, &self.direction),
        );
        let kept = if against < 0.0 && long > 0.0 {
            -1.5 * against / long
        } else {
            0.0
        };
        for (direction, slope) in self.direction.iter_mut().zip(&slope) {
            *direction = slope + kept * *direction;
        }
        let long = dot(&self.direction, &self.direction);
        if long <= 0.0 {
            return false;
        }
        let known = self.fitting.iter().map(|sent| packing.model.value(sent));
        let target = known.max().unwrap_or(i64::MIN).max(enough);
        let above = if target > i64::MIN / 2 {
            (*bound as f64 - target as f64).max(1.0)
        } else {
            0.05 * (*bound as f64).abs().max(1.0)
        };
        let step = self.length * above / long;
        for (at, direction) in self.direction.iter().enumerate() {
            let dearest = DEAREST / rows[at].heaviest;
            self.prices[at] = (self.prices[at] - step * direction).clamp(0.0, dearest);
            let fixed = libm::ldexp(self.prices[at] / rows[at].unit, PRICE_BITS as i32);
            self.whole[at] = libm::round(fixed) as i128;
        }
        true
    }
}
