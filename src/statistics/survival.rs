//! How many seedlings live on, and do pods differ in that?
//!
//! Kaplan & Meier (1958) with Greenwood's error and log(−log) limits, and the log-rank test between pods (Mantel 1966).
//! A plant sold, given away or simply last seen alive is censored at its last sitting: it counts as at risk until
//! then. A death found between two sittings is dated by the visit. Below [`FEWEST_DEATHS`] print counts, no curve.

use super::distribution::{chi_square_upper, normal_quantile};
use super::interval::{Confidence, Interval};
use super::matrix::Matrix;
use super::unanswered::{Unanswered, require};

/// Deaths below which a curve says less than the counts.
pub const FEWEST_DEATHS: usize = 5;

/// One plant followed up.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Followed {
    /// Age at death or when last seen, not negative.
    pub age: f64,
    /// True if it died then, false if it was last seen alive.
    pub died: bool,
}

/// One step of the survival curve.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Step {
    /// Age of the deaths.
    pub age: f64,
    /// Plants alive and followed just before.
    pub at_risk: usize,
    /// Deaths at this age.
    pub deaths: usize,
    /// Share surviving beyond this age, 0 to 1.
    pub survival: f64,
    /// Greenwood's standard error; none once nobody is left.
    pub standard_error: Option<f64>,
    /// log(−log) limits, within 0 to 1; none once nobody is left.
    pub interval: Option<Interval>,
}

/// The survival curve: one step per age at which plants died, none if all live.
///
/// # Errors
/// No plant, an age not finite, or an age below zero.
pub fn kaplan_meier(plants: &[Followed], confidence: Confidence) -> Result<Vec<Step>, Unanswered> {
    let sorted = by_age(plants)?;
    let z = normal_quantile(1.0 - confidence.tail());
    let (mut steps, mut at_risk, mut survival, mut greenwood) =
        (Vec::new(), sorted.len(), 1.0, 0.0);
    for same in sorted.chunk_by(|a, b| a.age == b.age) {
        let deaths = same.iter().filter(|plant| plant.died).count();
        if deaths > 0 {
            let (risk, dead) = (at_risk as f64, deaths as f64);
            survival *= 1.0 - dead / risk;
            greenwood += dead / (risk * (risk - dead));
            let left = at_risk > deaths;
            steps.push(Step {
                age: same[0].age,
                at_risk,
                deaths,
                survival,
                standard_error: left.then(|| survival * libm::sqrt(greenwood)),
                interval: left.then(|| limits(survival, greenwood, z)),
            });
        }
        at_risk -= same.len();
    }
    Ok(steps)
}

fn by_age(plants: &[Followed]) -> Result<Vec<Followed>, Unanswered> {
    let ages: Vec<f64> = plants.iter().map(|plant| plant.age).collect();
    require(&ages, 1)?;
    if let Some(&found) = ages.iter().find(|&&age| age < 0.0) {
        return Err(Unanswered::OutOfRange {
            found,
            low: 0.0,
            high: f64::MAX,
        });
    }
    let mut sorted = plants.to_vec();
    sorted.sort_by(|a, b| a.age.total_cmp(&b.age));
    Ok(sorted)
}

/// `S^exp(± z·√Σ/|ln S|)`, for `0 < S < 1`.
fn limits(survival: f64, greenwood: f64, z: f64) -> Interval {
    let ln_s = libm::log(survival);
    let half = z * libm::sqrt(greenwood) / -ln_s;
    let limit = |sign: f64| libm::exp(ln_s * libm::exp(sign * half));
    Interval {
        low: limit(1.0),
        high: limit(-1.0),
    }
}

/// The first age at which at most half survive; none while more do.
pub fn median_age(steps: &[Step]) -> Option<f64> {
    steps
        .iter()
        .find(|step| step.survival <= 0.5)
        .map(|step| step.age)
}

/// A comparison of survival between pods.
#[derive(Clone, PartialEq, Debug)]
pub struct LogRank {
    /// Deaths seen in each pod.
    pub observed: Vec<f64>,
    /// Deaths expected in each if all died alike.
    pub expected: Vec<f64>,
    /// The statistic.
    pub chi_square: f64,
    /// Pods less one.
    pub df: usize,
    /// Probability of a larger statistic if all die alike.
    pub p: f64,
}

/// The log-rank test between at least two pods.
///
/// # Errors
/// Fewer than two pods with plants, an age not finite or below zero, or no death that could tell pods apart.
pub fn log_rank(pods: &[Vec<Followed>]) -> Result<LogRank, Unanswered> {
    let filled: Vec<&Vec<Followed>> = pods.iter().filter(|pod| !pod.is_empty()).collect();
    if filled.len() < 2 {
        return Err(Unanswered::TooFew {
            found: filled.len(),
            needed: 2,
        });
    }
    let sorted = filled
        .iter()
        .map(|pod| by_age(pod))
        .collect::<Result<Vec<_>, _>>()?;
    let (observed, expected, spread) = tally(&sorted);
    let df = filled.len() - 1;
    let excess: Vec<f64> = (0..df).map(|i| observed[i] - expected[i]).collect();
    let solved = spread.factor().ok_or(Unanswered::NoSpread)?.solve(&excess);
    let chi_square = super::matrix::dot(&excess, &solved);
    Ok(LogRank {
        observed,
        expected,
        chi_square,
        df,
        p: chi_square_upper(chi_square, df as f64),
    })
}

/// Deaths seen and expected per pod, and the hypergeometric covariance of all pods but the last.
fn tally(pods: &[Vec<Followed>]) -> (Vec<f64>, Vec<f64>, Matrix) {
    let of_dead = pods.iter().flatten().filter(|plant| plant.died);
    let mut ages: Vec<f64> = of_dead.map(|plant| plant.age).collect();
    ages.sort_by(f64::total_cmp);
    ages.dedup();
    let k = pods.len();
    let (mut observed, mut expected) = (vec![0.0; k], vec![0.0; k]);
    let (mut spread, mut gone) = (Matrix::zero(k - 1, k - 1), vec![0; k]);
    for age in ages {
        let (mut risk, mut died) = (vec![0.0; k], 0.0);
        for (i, pod) in pods.iter().enumerate() {
            let (earlier, deaths) = at_age(&pod[gone[i]..], age);
            gone[i] += earlier;
            risk[i] = (pod.len() - gone[i]) as f64;
            observed[i] += deaths as f64;
            died += deaths as f64;
        }
        let all: f64 = risk.iter().sum();
        (0..k).for_each(|i| expected[i] += died * risk[i] / all);
        add_spread(&mut spread, &risk, died);
    }
    (observed, expected, spread)
}

/// Plants gone before an age, and deaths at it, in a list by age.
fn at_age(plants: &[Followed], age: f64) -> (usize, usize) {
    let earlier = plants.iter().take_while(|plant| plant.age < age).count();
    let here = plants[earlier..]
        .iter()
        .take_while(|plant| plant.age == age);
    (earlier, here.filter(|plant| plant.died).count())
}

fn add_spread(spread: &mut Matrix, risk: &[f64], died: f64) {
    let all: f64 = risk.iter().sum();
    if all <= 1.0 {
        return;
    }
    let tie = died * (all - died) / (all - 1.0);
    for i in 0..risk.len() - 1 {
        for j in 0..risk.len() - 1 {
            let own = if i == j { risk[i] / all } else { 0.0 };
            *spread.at_mut(i, j) += tie * (own - risk[i] * risk[j] / (all * all));
        }
    }
}
