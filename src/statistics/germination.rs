//! How many seeds came up, and when?
//!
//! Counts of newly germinated seeds at visits give the final share, the age at which half had come up, the mean time
//! (formulae from memory: Coolbear et al. 1984, Farooq et al. 2005, Ellis & Roberts 1981). A seed seen at a visit came up since the visit before, so recorded ages are late by half an interval on
//! average; the log-logistic fit with a share that never germinates uses the intervals as they are.

use super::error::{StatisticsError, require, require_count};
use super::nelder_mead::lowest;

/// Germination counts of one sowing.
#[derive(Clone, PartialEq, Debug)]
pub struct Visits {
    /// Age of each visit, rising, above zero.
    pub days: Vec<f64>,
    /// Newly germinated at each visit.
    pub counts: Vec<u64>,
    /// Seeds sown.
    pub sown: u64,
}

/// An age at which a count was reached.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum Reached {
    /// Between visits, by straight interpolation.
    At(f64),
    /// Already by the first visit; its age.
    ByFirstVisit(f64),
}

/// What the counts say.
#[derive(Clone, PartialEq, Debug)]
pub struct Germination {
    /// Age at which `(N + 1)/2` of the `N` germinated had come up (Coolbear et al. 1984).
    pub t50_coolbear: Reached,
    /// The same for `N/2` (Farooq et al. 2005).
    pub t50_farooq: Reached,
    /// Mean germination time by the days of the visits.
    pub mean_time: f64,
    /// Mean germination time by the middles of the intervals between visits.
    pub mean_time_between: f64,
}

impl Visits {
    fn check(&self) -> Result<u64, StatisticsError> {
        if self.days.len() != self.counts.len() {
            return Err(StatisticsError::Unpaired {
                left: self.days.len(),
                right: self.counts.len(),
            });
        }
        require(&self.days, 1)?;
        if self.days[0] <= 0.0 {
            return Err(StatisticsError::NotPositive);
        }
        if self.days.windows(2).any(|pair| pair[0] >= pair[1]) {
            return Err(StatisticsError::OrderUnknown);
        }
        match self.counts.iter().sum::<u64>() {
            0 => Err(StatisticsError::TooFew {
                found: 0,
                needed: 1,
            }),
            n if n > self.sown => Err(StatisticsError::OutOfRange {
                found: n as f64,
                low: 0.0,
                high: self.sown as f64,
            }),
            n => Ok(n),
        }
    }

    /// The age at which the running total reached `target`, straight between visits.
    fn reached(&self, target: f64) -> Option<Reached> {
        let mut before = 0.0;
        for (i, &count) in self.counts.iter().enumerate() {
            let after = before + count as f64;
            if after >= target && count > 0 {
                if i == 0 {
                    return Some(Reached::ByFirstVisit(self.days[i]));
                }
                let from = self.days[i - 1];
                return Some(Reached::At(
                    from + (target - before) * (self.days[i] - from) / (after - before),
                ));
            }
            before = after;
        }
        None
    }

    fn weighted(&self, value: impl Fn(usize) -> f64) -> f64 {
        self.counts
            .iter()
            .enumerate()
            .map(|(i, &count)| count as f64 * value(i))
            .sum()
    }
}

/// The indices of a sowing. The final share and its interval come from `proportion::wilson`.
///
/// # Errors
/// Nothing germinated, more germinated than sown, days not rising or not above zero, or lists of different length.
pub fn germination(visits: &Visits) -> Result<Germination, StatisticsError> {
    let n = visits.check()? as f64;
    let reached = |target: f64| visits.reached(target).ok_or(StatisticsError::NotFitted);
    let before = |i: usize| if i == 0 { 0.0 } else { visits.days[i - 1] };
    Ok(Germination {
        t50_coolbear: reached(0.5 * (n + 1.0))?,
        t50_farooq: reached(0.5 * n)?,
        mean_time: visits.weighted(|i| visits.days[i]) / n,
        mean_time_between: visits.weighted(|i| 0.5 * (before(i) + visits.days[i])) / n,
    })
}

/// A log-logistic course of germination with a share that never germinates.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Course {
    /// Share of seeds that germinate in the end, 0 to 1.
    pub final_share: f64,
    /// Age at which half of those have germinated.
    pub t50: f64,
    /// Spread of the logarithm of age (scale of the logistic).
    pub scale: f64,
    /// The negative log likelihood, constants left out.
    pub negative_log_likelihood: f64,
}

/// Counts with new seedlings a course needs: as many as it has parameters, since fewer do not determine them.
pub const FEWEST_COUNTS: usize = 3;

/// Scales of courses from steep to flat, from which the best is looked for: the likelihood may have several tops.
pub(super) const SCALES: [f64; 3] = [0.1, 0.3, 0.8];

/// Fits the course by the likelihood of the intervals between visits.
///
/// Given t50 and scale the best final share is the germinated share over the fitted share by the last visit (at most
/// 1), so only those two are searched.
///
/// # Errors
/// As [`germination`]; new seedlings at fewer than [`FEWEST_COUNTS`] visits; or no optimum inside the range of ages.
pub fn course(visits: &Visits) -> Result<Course, StatisticsError> {
    visits.check()?;
    let with_seedlings = visits.counts.iter().filter(|&&count| count > 0).count();
    require_count(with_seedlings, FEWEST_COUNTS)?;
    let start =
        libm::log(visits.weighted(|i| visits.days[i]) / visits.counts.iter().sum::<u64>() as f64);
    let value = |at: &[f64]| profile(visits, libm::exp(at[0]), libm::exp(at[1])).1;
    let starts = SCALES.map(|scale| vec![start, libm::log(scale)]);
    let (at, least) = starts
        .iter()
        .map(|from| lowest(&value, from, 0.3))
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .ok_or(StatisticsError::NotFitted)?;
    let (t50, scale) = (libm::exp(at[0]), libm::exp(at[1]));
    if !least.is_finite() || t50 > 10.0 * visits.days[visits.days.len() - 1] || scale < 1e-6 {
        return Err(StatisticsError::NotFitted);
    }
    Ok(Course {
        final_share: profile(visits, t50, scale).0,
        t50,
        scale,
        negative_log_likelihood: least,
    })
}

/// The best final share for a course, and the negative log likelihood with it.
pub(super) fn profile(visits: &Visits, t50: f64, scale: f64) -> (f64, f64) {
    let germinated = visits.counts.iter().sum::<u64>();
    let by_last = part_by(visits.days[visits.days.len() - 1], t50, scale);
    let share = (germinated as f64 / (visits.sown as f64 * by_last)).min(1.0);
    (share, negative_log_likelihood(visits, share, t50, scale))
}

/// The part of those that germinate in the end which has by a day.
fn part_by(day: f64, t50: f64, scale: f64) -> f64 {
    1.0 / (1.0 + libm::exp(-(libm::log(day) - libm::log(t50)) / scale))
}

/// The negative log likelihood of a course, constants left out; infinite where the counts are impossible under it.
pub(super) fn negative_log_likelihood(visits: &Visits, share: f64, t50: f64, scale: f64) -> f64 {
    let (mut likelihood, mut before) = (0.0, 0.0);
    for (&day, &count) in visits.days.iter().zip(&visits.counts) {
        let by_day = part_by(day, t50, scale);
        if count > 0 {
            likelihood += count as f64 * libm::log(share * (by_day - before));
        }
        before = by_day;
    }
    let never = visits.sown - visits.counts.iter().sum::<u64>();
    if never > 0 {
        likelihood += never as f64 * libm::log1p(-share * before);
    }
    if likelihood.is_nan() {
        f64::INFINITY
    } else {
        -likelihood
    }
}
