//! How many seedlings live on, and do pods differ in that?
//!
//! Kaplan & Meier (1958) with Greenwood's error and log(−log) limits, and the log-rank test between pods (Mantel 1966).
//! A plant sold or given away is censored on that day, one that lives today: it counts as at risk until then. One that came under observation late is at risk only from then on (left truncation; Kaplan–Meier with late
//! entry as in Klein & Moeschberger 2003, section 4.6, from memory). A death found between two sittings is dated by the visit. Below [`FEWEST_DEATHS`] print counts, no curve.

use super::distribution::{chi_square_upper, normal_quantile};
use super::error::{StatisticsError, require, require_count};
use super::interval::{Confidence, Interval};
use super::matrix::Matrix;

/// Deaths below which a curve says less than the counts.
pub const FEWEST_DEATHS: usize = 5;

/// One plant followed up.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Followed {
    /// Age from which it was followed, `None` for from the beginning; it is at risk at later ages only.
    pub entered: Option<f64>,
    /// Age at death or when last seen, not negative.
    pub age: f64,
    /// True if it died then, false if it was alive then.
    pub died: bool,
}

impl Followed {
    /// Whether it was at risk at any age.
    pub fn is_followed(&self) -> bool {
        self.entered.is_none_or(|entered| entered < self.age)
    }
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
    /// Greenwood's standard error; none once no plant is left.
    pub standard_error: Option<f64>,
    /// log(−log) limits, within 0 to 1; none once no plant is left.
    pub interval: Option<Interval>,
}

/// The survival curve: one step per age at which plants died, none if all live.
///
/// # Errors
/// No plant, an age not finite, or an age below zero.
pub fn kaplan_meier(
    plants: &[Followed],
    confidence: Confidence,
) -> Result<Vec<Step>, StatisticsError> {
    let plants = Ordered::of(plants)?;
    let z = normal_quantile(1.0 - confidence.tail());
    let (mut steps, mut survival, mut greenwood) = (Vec::new(), 1.0, 0.0);
    for age in plants.ages_of_death() {
        let (at_risk, deaths) = plants.at(age);
        let (risk, dead) = (at_risk as f64, deaths as f64);
        survival *= 1.0 - dead / risk;
        greenwood += dead / (risk * (risk - dead));
        let left = at_risk > deaths && survival > 0.0;
        steps.push(Step {
            age,
            at_risk,
            deaths,
            survival,
            standard_error: left.then(|| survival * libm::sqrt(greenwood)),
            interval: left.then(|| limits(survival, greenwood, z)),
        });
    }
    Ok(steps)
}

/// Ages of some plants in order, so that who is at risk is counted by halving.
struct Ordered {
    /// Ages at entry of those that came late.
    entered: Vec<f64>,
    from_the_start: usize,
    /// Ages at the end, and at death.
    ended: Vec<f64>,
    died: Vec<f64>,
}

impl Ordered {
    /// Plants never at risk are left out.
    fn of(plants: &[Followed]) -> Result<Ordered, StatisticsError> {
        let ages = plants.iter().map(|plant| plant.age);
        let all: Vec<f64> = ages
            .chain(plants.iter().filter_map(|p| p.entered))
            .collect();
        require(&all, 1)?;
        if let Some(found) = plants.iter().map(|p| p.age).find(|&age| age < 0.0) {
            return Err(StatisticsError::OutOfRange {
                found,
                low: 0.0,
                high: f64::MAX,
            });
        }
        let followed = || plants.iter().filter(|plant| plant.is_followed());
        let sorted = |mut ages: Vec<f64>| {
            ages.sort_by(f64::total_cmp);
            ages
        };
        Ok(Ordered {
            entered: sorted(followed().filter_map(|plant| plant.entered).collect()),
            from_the_start: followed().filter(|plant| plant.entered.is_none()).count(),
            ended: sorted(followed().map(|plant| plant.age).collect()),
            died: sorted(followed().filter(|p| p.died).map(|p| p.age).collect()),
        })
    }

    fn ages_of_death(&self) -> Vec<f64> {
        let mut ages = self.died.clone();
        ages.dedup();
        ages
    }

    /// Plants at risk at an age, and deaths at it.
    fn at(&self, age: f64) -> (usize, usize) {
        let before = |ages: &[f64]| ages.partition_point(|&other| other < age);
        let at_risk = self.from_the_start + before(&self.entered) - before(&self.ended);
        let deaths = self.died.partition_point(|&other| other <= age) - before(&self.died);
        (at_risk, deaths)
    }
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
pub fn log_rank(pods: &[Vec<Followed>]) -> Result<LogRank, StatisticsError> {
    let filled: Vec<&Vec<Followed>> = pods.iter().filter(|pod| !pod.is_empty()).collect();
    require_count(filled.len(), 2)?;
    let ordered = filled
        .iter()
        .map(|pod| Ordered::of(pod))
        .collect::<Result<Vec<_>, _>>()?;
    let (observed, expected, spread) = tally(&ordered);
    let df = filled.len() - 1;
    let excess: Vec<f64> = (0..df).map(|i| observed[i] - expected[i]).collect();
    let solved = spread
        .factor()
        .ok_or(StatisticsError::NoSpread)?
        .solve(&excess);
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
fn tally(pods: &[Ordered]) -> (Vec<f64>, Vec<f64>, Matrix) {
    let mut ages: Vec<f64> = pods.iter().flat_map(Ordered::ages_of_death).collect();
    ages.sort_by(f64::total_cmp);
    ages.dedup();
    let k = pods.len();
    let (mut observed, mut expected) = (vec![0.0; k], vec![0.0; k]);
    let mut spread = Matrix::zero(k - 1, k - 1);
    for age in ages {
        let (mut risk, mut died) = (vec![0.0; k], 0.0);
        for (i, pod) in pods.iter().enumerate() {
            let (at_risk, deaths) = pod.at(age);
            risk[i] = at_risk as f64;
            observed[i] += deaths as f64;
            died += deaths as f64;
        }
        let all: f64 = risk.iter().sum();
        (0..k).for_each(|i| expected[i] += died * risk[i] / all);
        add_spread(&mut spread, &risk, died);
    }
    (observed, expected, spread)
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
