//! The prices of the loads under which the bound is lowest.
//!
//! Every plan met on the way gives a plane under the convex bound (Kelley 1960); the lowest point of all planes says
//! where to look next. With one or two loads that point is found by trying every corner. Any prices give a valid bound,
//! so stopping early costs sharpness, never truth.

use super::relax::{Domain, PRICE_BITS, Priced, WORTH_LIMIT, leanest, priced};
use super::units::Question;

/// Planes at most.
const PLANES: usize = 40;

/// What is known of the best plan of a domain.
#[derive(Clone, Debug)]
pub(super) struct Judged {
    /// The best plan under the best prices found.
    pub best: Priced,
    /// Another plan nearly as good there, that takes more or less of the loads.
    pub other: Option<Vec<u32>>,
    /// Plans met that keep every limit.
    pub fitting: Vec<Vec<u32>>,
    /// Networks solved.
    pub steps: u64,
}

impl Judged {
    /// The question without the choices no plan worth at least `floor` units could use.
    pub fn without_hopeless(&self, question: &Question, floor: i64) -> Question {
        let could = |at: &usize| {
            let bound = self.best.bound.saturating_sub(self.best.loss[*at]);
            bound >= floor || self.best.sent[*at] > 0
        };
        let kept = (0..question.choices.len()).filter(could);
        Question {
            choices: kept.map(|at| question.choices[at].clone()).collect(),
            ..question.clone()
        }
    }
}

/// A plane: what a plan is worth at prices p is `height + Σ room·p`.
struct Plane {
    height: f64,
    room: Vec<f64>,
    sent: Vec<u32>,
}

impl Plane {
    fn of(question: &Question, sent: &[u32]) -> Self {
        let loads = 0..question.capacities.len();
        Self {
            height: question.value(sent) as f64,
            room: loads.map(|load| question.room(load, sent) as f64).collect(),
            sent: sent.to_vec(),
        }
    }

    fn at(&self, prices: &[f64]) -> f64 {
        self.height
            + self
                .room
                .iter()
                .zip(prices)
                .map(|(room, price)| room * price)
                .sum::<f64>()
    }
}

/// The lowest bound of a domain; `None` if it holds no plan at all. Stops early once the bound falls below `enough`.
pub(super) fn judge(question: &Question, domain: &Domain, enough: i64) -> Option<Judged> {
    let loads = question.capacities.len();
    let mut best = priced(question, domain, &vec![0; loads])?;
    let mut planes = vec![Plane::of(question, &best.sent)];
    let mut fitting: Vec<Vec<u32>> = Vec::new();
    let mut steps = 1;
    let highest: Vec<f64> = (0..loads)
        .map(|load| highest_price(question, load))
        .collect();
    let mut met = best.clone();
    while loads > 0 && planes.len() < PLANES {
        if question.fits(&met.sent) {
            fitting.push(met.sent.clone());
        }
        let settled = question.fits(&best.sent) && solved(question, &best);
        if best.bound < enough || settled {
            break;
        }
        let (prices, height) = lowest_corner(&planes, &highest);
        if best.bound as f64 <= height + 2.0 {
            break;
        }
        let whole: Vec<i128> = prices
            .iter()
            .map(|price| libm::round(libm::ldexp(*price, PRICE_BITS as i32)) as i128)
            .collect();
        met = priced(question, domain, &whole)?;
        steps += 1;
        if met.bound < best.bound {
            best = met.clone();
        }
        if planes.iter().any(|plane| plane.sent == met.sent) {
            break;
        }
        planes.push(Plane::of(question, &met.sent));
    }
    if loads == 0 {
        fitting.push(best.sent.clone());
    }
    let other = planes
        .into_iter()
        .rev()
        .map(|plane| plane.sent)
        .find(|sent| *sent != best.sent);
    Some(Judged {
        best,
        other,
        fitting,
        steps,
    })
}

/// Plans of a domain that take least of each load, one for each; `None` if one of them takes more than there is, since
/// then the domain holds no plan at all. No price could ever tell: under a load that cannot be kept the bound falls
/// without end.
pub(super) fn leanest_plans(question: &Question, domain: &Domain) -> Option<Vec<Vec<u32>>> {
    let lean = |load: usize| {
        let sent = leanest(question, domain, load)?;
        (question.room(load, &sent) >= 0).then_some(sent)
    };
    (0..question.capacities.len()).map(lean).collect()
}

/// Whether the best plan under prices is the best of its domain: it fits, and is worth the bound but for the rounding
/// of prices.
pub(super) fn solved(question: &Question, best: &Priced) -> bool {
    let pods: u32 = best.sent.iter().sum();
    let rounding = if question.capacities.is_empty() {
        0
    } else {
        i64::from(pods) + 2
    };
    question.fits(&best.sent) && question.value(&best.sent) + rounding >= best.bound
}

/// Prices beyond this would push a pod's worth over what the network can hold.
fn highest_price(question: &Question, load: usize) -> f64 {
    let largest = question
        .choices
        .iter()
        .map(|c| c.loads[load].unsigned_abs())
        .max()
        .unwrap_or(1);
    (WORTH_LIMIT / 4) as f64 / largest.max(1) as f64
}

/// The lowest point of the highest plane, prices from 0 to `highest`.
fn lowest_corner(planes: &[Plane], highest: &[f64]) -> (Vec<f64>, f64) {
    let height = |prices: &[f64]| planes.iter().map(|p| p.at(prices)).fold(f64::MIN, f64::max);
    let corners = match highest {
        [most] => corners_of_one(planes, *most),
        [one, two] => corners_of_two(planes, *one, *two),
        _ => unreachable!("a season has at most two loads"),
    };
    let valued = corners.into_iter().map(|prices| (height(&prices), prices));
    let lowest = valued.fold(
        None,
        |low: Option<(f64, Vec<f64>)>, (height, prices)| match low {
            Some((least, _)) if least <= height => low,
            _ => Some((height, prices)),
        },
    );
    let (height, prices) = lowest.expect("the corners of the box are always there");
    (prices, height)
}

fn corners_of_one(planes: &[Plane], most: f64) -> Vec<Vec<f64>> {
    let mut corners = vec![vec![0.0], vec![most]];
    for (at, one) in planes.iter().enumerate() {
        for two in &planes[..at] {
            let price = (two.height - one.height) / (one.room[0] - two.room[0]);
            if price > 0.0 && price < most {
                corners.push(vec![price]);
            }
        }
    }
    corners
}

/// Where two of the straight lines cross on which two planes are level, or the sides of the box.
fn corners_of_two(planes: &[Plane], one: f64, two: f64) -> Vec<Vec<f64>> {
    // A line is a·x + b·y = c.
    let sides = [
        (1.0, 0.0, 0.0),
        (1.0, 0.0, one),
        (0.0, 1.0, 0.0),
        (0.0, 1.0, two),
    ];
    let inside = |x: f64, y: f64| x >= 0.0 && x <= one && y >= 0.0 && y <= two;
    let level = |p: &Plane, q: &Plane| {
        (
            p.room[0] - q.room[0],
            p.room[1] - q.room[1],
            q.height - p.height,
        )
    };
    let mut corners = Vec::new();
    let mut cross = |(a, b, c): (f64, f64, f64), (d, e, f): (f64, f64, f64)| {
        let under = a * e - b * d;
        let (x, y) = ((c * e - b * f) / under, (a * f - c * d) / under);
        if under != 0.0 && inside(x, y) {
            corners.push(vec![x, y]);
        }
    };
    for i in 0..sides.len() {
        (0..i).for_each(|j| cross(sides[i], sides[j]));
    }
    for i in 0..planes.len() {
        for j in 0..i {
            let line = level(&planes[i], &planes[j]);
            sides.iter().for_each(|&side| cross(line, side));
            (0..j).for_each(|k| cross(line, level(&planes[i], &planes[k])));
        }
    }
    corners
}
