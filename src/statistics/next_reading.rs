//! Which plant is worth reading next?
//!
//! Some compete for a place. One more reading of a plant moves its expected merit by a normal amount with variance
//! `s² = v²/(v + e)`, where `v` is the variance of what is still unknown about it and `e` that of a reading. It changes
//! the choice only if the plant crosses the border: the best one left out, for a plant now kept, or the last one kept, for
//! any other. With `d` the distance it stands on its own side of that border the expected gain in the summed merit of the
//! kept is `s·(φ(d/s) − (d/s)·Φ(−d/s))` (the knowledge gradient of Frazier, Powell & Dayanik 2008, from memory). Each
//! reading is judged as if it were the only one.

use super::distribution::{normal_density, normal_upper};
use super::error::{StatisticsError, require, require_within};

/// How a candidate stands before the reading.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stands {
    /// It has a place by its merit.
    Kept,
    /// It has none by its merit.
    LeftOut,
    /// It can have none before it is read.
    Waits,
}

/// What is known about one candidate.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Candidate {
    /// How it stands now.
    pub stands: Stands,
    /// Expected merit; 0 (the sowing's mean) for a plant never read.
    pub merit: f64,
    /// Variance of its true merit around that, at least 0; the whole variance for a plant never read.
    pub variance: f64,
    /// Variance of one further reading, at least 0.
    pub reading_variance: f64,
}

/// A reading worth taking.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Worth {
    /// Place of the plant in the list given.
    pub plant: usize,
    /// Expected gain in the summed merit of the plants kept.
    pub gain: f64,
}

/// The value of one further reading of each candidate, in the order given.
///
/// # Errors
/// A figure not finite or a variance below zero. Where there is no border every gain is 0.
pub fn worth(candidates: &[Candidate]) -> Result<Vec<Worth>, StatisticsError> {
    candidates.iter().try_for_each(check)?;
    let of = |stands: Stands| {
        let those = candidates.iter().filter(move |of| of.stands == stands);
        those.map(|of| of.merit)
    };
    let last_kept = of(Stands::Kept).reduce(f64::min);
    let first_left = of(Stands::LeftOut).reduce(f64::max);
    let inside = |candidate: &Candidate| match candidate.stands {
        Stands::Kept => first_left.map(|border| candidate.merit - border),
        Stands::LeftOut | Stands::Waits => last_kept.map(|border| border - candidate.merit),
    };
    let worth = |(plant, candidate): (usize, &Candidate)| {
        let gain = inside(candidate).map_or(0.0, |d| crossing_gain(d, shift_sd(candidate)));
        Worth { plant, gain }
    };
    Ok(candidates.iter().enumerate().map(worth).collect())
}

fn check(candidate: &Candidate) -> Result<(), StatisticsError> {
    require(&[candidate.merit], 1)?;
    require_within(candidate.variance, 0.0, f64::MAX)?;
    require_within(candidate.reading_variance, 0.0, f64::MAX)
}

/// Standard deviation of the change of expected merit by one reading.
fn shift_sd(candidate: &Candidate) -> f64 {
    let total = candidate.variance + candidate.reading_variance;
    if total > 0.0 {
        candidate.variance / libm::sqrt(total)
    } else {
        0.0
    }
}

/// What a change of this standard deviation is expected to gain for a plant so far on its own side of the border.
fn crossing_gain(distance: f64, sd: f64) -> f64 {
    if sd <= 0.0 {
        return 0.0;
    }
    let x = distance / sd;
    (sd * (normal_density(x) - x * normal_upper(x))).max(0.0)
}
