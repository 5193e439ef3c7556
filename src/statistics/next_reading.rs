//! Which plant is worth reading next, given the minutes available?
//!
//! The best `kept` plants by expected merit will be kept. One more reading of a plant moves its expected merit by a
//! normal amount with variance `s² = v²/(v + e)`, where `v` is the variance of what is still unknown about it and `e`
//! that of a reading. It changes the choice only if the plant crosses the border: the best one left out, for a plant
//! now kept, or the last one kept, for a plant now left out. With `d` the distance to that border the expected gain in
//! the summed merit of the kept is `s·(φ(d/s) − (d/s)·Φ(−d/s))` (the knowledge gradient of Frazier, Powell & Dayanik
//! 2008, from memory). Each reading is judged as if it were the only one.

use super::distribution::{normal_density, normal_upper};
use super::error::{StatisticsError, require, require_within};

/// What is known about one candidate.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Candidate {
    /// Expected merit; 0 (the sowing's mean) for a plant never read.
    pub merit: f64,
    /// Variance of its true merit around that, at least 0; the whole variance for a plant never read.
    pub variance: f64,
    /// Variance of one further reading, at least 0.
    pub reading_variance: f64,
    /// Minutes one further reading takes, above 0.
    pub minutes: f64,
}

/// A reading worth taking.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Worth {
    /// Place of the plant in the list given.
    pub plant: usize,
    /// Expected gain in the summed merit of the plants kept.
    pub gain: f64,
    /// The same per minute.
    pub per_minute: f64,
}

impl Worth {
    fn none(plant: usize) -> Self {
        Self {
            plant,
            gain: 0.0,
            per_minute: 0.0,
        }
    }
}

/// The value of one further reading of each candidate, in the order given, when the best `kept` will be kept.
///
/// # Errors
/// A figure not finite, a variance below zero, or minutes not above zero. If all or none are kept every gain is 0.
pub fn worth(candidates: &[Candidate], kept: usize) -> Result<Vec<Worth>, StatisticsError> {
    candidates.iter().try_for_each(check)?;
    let mut order: Vec<usize> = (0..candidates.len()).collect();
    order.sort_by(|&a, &b| candidates[b].merit.total_cmp(&candidates[a].merit));
    let mut all: Vec<Worth> = (0..candidates.len()).map(Worth::none).collect();
    if kept == 0 || kept >= candidates.len() {
        return Ok(all);
    }
    let (last_kept, first_left) = (
        candidates[order[kept - 1]].merit,
        candidates[order[kept]].merit,
    );
    for (place, &plant) in order.iter().enumerate() {
        let candidate = &candidates[plant];
        let border = if place < kept { first_left } else { last_kept };
        let gain = crossing_gain((candidate.merit - border).abs(), shift_sd(candidate));
        all[plant] = Worth {
            plant,
            gain,
            per_minute: gain / candidate.minutes,
        };
    }
    Ok(all)
}

fn check(candidate: &Candidate) -> Result<(), StatisticsError> {
    require(&[candidate.merit], 1)?;
    require_within(candidate.variance, 0.0, f64::MAX)?;
    require_within(candidate.reading_variance, 0.0, f64::MAX)?;
    require_within(candidate.minutes, f64::MIN_POSITIVE, f64::MAX)
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

fn crossing_gain(distance: f64, sd: f64) -> f64 {
    if sd <= 0.0 {
        return 0.0;
    }
    let x = distance / sd;
    (sd * (normal_density(x) - x * normal_upper(x))).max(0.0)
}
