//! The price of kinship under which the bound is lowest.
//!
//! Every plan met on the way gives a plane under the convex bound (Kelley 1960); the lowest point of all planes says
//! where to look next, found by trying every corner. Any price gives a valid bound, so stopping early costs sharpness,
//! never truth. Where pods take unlike numbers of pots, [`super::pack`] bounds instead.

use super::domain::Domain;
use super::relax::{PRICE_BITS, Priced, WORTH_LIMIT, leanest, priced};
use super::units::{IntegerModel, by_value};
use std::rc::Rc;

/// Planes at most.
const PLANES: usize = 40;

/// Prices of all rows, in 2^-40 units for a weight of 1.
pub(super) type Prices = Vec<i128>;

/// What is known of the best plan of a domain.
#[derive(Clone, Debug)]
pub(super) struct Relaxation {
    /// The best plan under the best prices found.
    pub best: Priced,
    /// Other plans nearly as good there, the last the nearest.
    pub others: Vec<Vec<u32>>,
    /// Plans met that keep every limit.
    pub fitting: Vec<Vec<u32>>,
    /// A choice to cut the domain at, and the fewer pods of it, where prices tell one.
    pub branch: Option<(usize, u32)>,
    /// Prices to start from in a part of the domain.
    pub prices: Option<Rc<Prices>>,
    /// The work it took, in steps.
    pub steps: u64,
}

impl Relaxation {
    /// A domain without the pods no plan worth at least `floor` units could have more of.
    pub fn narrowed(&self, domain: &Domain, floor: i64) -> Domain {
        let mut domain = domain.clone();
        for (at, &loss) in self.best.loss.iter().enumerate() {
            let fewest = self.best.sent[at] == domain.least[at];
            if fewest && self.best.bound.saturating_sub(loss) < floor {
                domain.most[at] = domain.least[at];
            }
        }
        domain
    }

    /// The model without the choices no plan worth at least `floor` units could use.
    pub fn without_hopeless(&self, model: &IntegerModel, floor: i64) -> IntegerModel {
        let could = |at: &usize| {
            let bound = self.best.bound.saturating_sub(self.best.loss[*at]);
            bound >= floor || self.best.sent[*at] > 0
        };
        let kept = (0..model.choices.len()).filter(could);
        let choices: Vec<_> = kept.map(|at| model.choices[at].clone()).collect();
        IntegerModel {
            by_value: by_value(&choices),
            choices,
            ..model.clone()
        }
    }
}

/// A plane: what a plan is worth at a price p is `height + room·p`.
struct Plane {
    height: f64,
    room: f64,
    sent: Vec<u32>,
}

impl Plane {
    fn of(model: &IntegerModel, sent: &[u32]) -> Self {
        Self {
            height: model.value(sent) as f64,
            room: model.room(LOAD, sent) as f64,
            sent: sent.to_vec(),
        }
    }

    fn at(&self, price: f64) -> f64 {
        self.height + self.room * price
    }
}

/// The one load there is.
const LOAD: usize = 0;

/// The lowest bound of a domain with at most one load; `None` if it holds no plan at all. Stops early once the bound
/// falls below `enough`.
pub(super) fn lagrangian_bound(
    model: &IntegerModel,
    domain: &Domain,
    enough: i64,
) -> Option<Relaxation> {
    let loads = model.capacities.len();
    let best = priced(model, domain, &vec![0; loads])?;
    if loads == 0 {
        let fitting = Some(best.sent.clone()).filter(|sent| model.fits(sent));
        return Some(Relaxation::of(best, fitting.into_iter().collect()));
    }
    let mut steps = best.steps;
    let mut planes = vec![Plane::of(model, &best.sent)];
    let mut fitting: Vec<Vec<u32>> = Vec::new();
    let highest = highest_price(model, LOAD);
    let (mut met, mut best) = (best.clone(), best);
    while planes.len() < PLANES {
        if model.fits(&met.sent) {
            fitting.push(met.sent.clone());
        }
        let settled = model.fits(&best.sent) && solved(model, &best);
        if best.bound < enough || settled {
            break;
        }
        let (price, height) = lowest_corner(&planes, highest);
        if best.bound as f64 <= height + 2.0 {
            break;
        }
        let whole = libm::round(libm::ldexp(price, PRICE_BITS as i32)) as i128;
        met = priced(model, domain, &[whole])?;
        steps += met.steps;
        if met.bound < best.bound {
            best = met.clone();
        }
        if planes.iter().any(|plane| plane.sent == met.sent) {
            break;
        }
        planes.push(Plane::of(model, &met.sent));
    }
    let others = planes.into_iter().rev().map(|plane| plane.sent);
    let other = others.into_iter().find(|sent| *sent != best.sent);
    Some(Relaxation {
        steps,
        others: other.into_iter().collect(),
        ..Relaxation::of(best, fitting)
    })
}

impl Relaxation {
    fn of(best: Priced, fitting: Vec<Vec<u32>>) -> Self {
        Self {
            steps: best.steps,
            best,
            fitting,
            others: Vec::new(),
            branch: None,
            prices: None,
        }
    }
}

/// Plans of a domain that take least of each load, one for each; `None` if one of them takes more than there is, since
/// then the domain holds no plan at all. No price could ever tell: under a load that cannot be kept the bound falls
/// without end.
pub(super) fn leanest_plans(model: &IntegerModel, domain: &Domain) -> Option<Vec<Vec<u32>>> {
    let lean = |load: usize| {
        let sent = leanest(model, domain, load)?;
        (model.room(load, &sent) >= 0).then_some(sent)
    };
    (0..model.capacities.len()).map(lean).collect()
}

/// Whether the best plan under prices is the best of its domain: it fits, and is worth the bound but for the rounding
/// of prices.
pub(super) fn solved(model: &IntegerModel, best: &Priced) -> bool {
    let pods: u32 = best.sent.iter().sum();
    let rounding = if model.capacities.is_empty() {
        0
    } else {
        i64::from(pods) + 2
    };
    model.fits(&best.sent) && model.value(&best.sent) + rounding >= best.bound
}

/// Prices beyond this would push a pod's worth over what the network can hold.
fn highest_price(model: &IntegerModel, load: usize) -> f64 {
    let largest = model
        .choices
        .iter()
        .map(|c| c.loads[load].unsigned_abs())
        .max()
        .unwrap_or(1);
    (WORTH_LIMIT / 4) as f64 / largest.max(1) as f64
}

/// The lowest point of the highest plane, prices from 0 to `highest`.
fn lowest_corner(planes: &[Plane], highest: f64) -> (f64, f64) {
    let height = |price: f64| planes.iter().map(|p| p.at(price)).fold(f64::MIN, f64::max);
    let mut lowest = (0.0, height(0.0));
    let mut consider = |price: f64| {
        let height = height(price);
        if height < lowest.1 {
            lowest = (price, height);
        }
    };
    consider(highest);
    for (at, one) in planes.iter().enumerate() {
        for two in &planes[..at] {
            let price = (two.height - one.height) / (one.room - two.room);
            if price > 0.0 && price < highest {
                consider(price);
            }
        }
    }
    lowest
}
