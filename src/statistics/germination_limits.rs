//! How sure are the fitted day by which half came up, and the fitted share that comes up in the end?
//!
//! Limits by the profile likelihood (Venzon & Moolgavkar 1988, from memory): a value is left out where the best course
//! with it is less likely than the best of all by more than half the chi-square quantile of one degree of freedom. They
//! need not lie evenly about the figure, and one may be lacking: counts that were still rising leave the end open.
//! Seeds are taken one by one; those of one pot share what happens to the pot, so the limits are rather too narrow.

use super::distribution::chi_square_upper_quantile;
use super::germination::{Course, SCALES, Visits, negative_log_likelihood, profile};
use super::interval::{Confidence, Interval};
use super::nelder_mead::lowest;

/// Limits of a fitted course.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct CourseLimits {
    /// Of the share that germinates in the end, 0 to 1.
    pub final_share: Interval,
    /// Of the day by which half of those have: lower and upper; `None` where the counts set no such limit within a
    /// tenth of the first and ten times the last day counted.
    pub t50: (Option<f64>, Option<f64>),
}

/// The limits of a course that [`super::germination::course`] fitted to the visits.
pub fn course_limits(visits: &Visits, fitted: &Course, confidence: Confidence) -> CourseLimits {
    let drop = 0.5 * chi_square_upper_quantile(2.0 * confidence.tail(), 1.0);
    let limit = fitted.negative_log_likelihood + drop;
    // Farther out a flat course may be likelier than the steep ones beside the best, or a steep one than the flat.
    let scales = [&[fitted.scale][..], &SCALES].concat();
    let scales: Vec<f64> = scales.into_iter().map(libm::log).collect();
    let t50 = |log_t50: f64| {
        let value = |at: &[f64]| profile(visits, libm::exp(log_t50), libm::exp(at[0])).1;
        let lowest = scales.iter().map(|&scale| lowest(&value, &[scale], 0.3).1);
        lowest.fold(f64::INFINITY, f64::min) - limit
    };
    let best = libm::log(fitted.t50);
    let share = |share: f64| {
        let value =
            |at: &[f64]| negative_log_likelihood(visits, share, libm::exp(at[0]), libm::exp(at[1]));
        let lowest = scales
            .iter()
            .map(|&scale| lowest(&value, &[best, scale], 0.3).1);
        lowest.fold(f64::INFINITY, f64::min) - limit
    };
    let (first, last) = (visits.days[0], visits.days[visits.days.len() - 1]);
    let (earliest, latest) = (
        libm::log(0.1 * first).min(best),
        libm::log(10.0 * last).max(best),
    );
    CourseLimits {
        final_share: Interval {
            low: bound(fitted.final_share, 0.0, &share).unwrap_or(0.0),
            high: bound(fitted.final_share, 1.0, &share).unwrap_or(1.0),
        },
        t50: (
            bound(best, earliest, &t50).map(libm::exp),
            bound(best, latest, &t50).map(libm::exp),
        ),
    }
}

/// Where `height`, not above 0 at `from`, first rises above it on the way to `until`; `None` if it does not. By false
/// position, halving the height of an end that stays (Illinois; Dowell & Jarratt 1971, from memory).
fn bound(from: f64, until: f64, height: &impl Fn(f64) -> f64) -> Option<f64> {
    // Out in steps, so that of several ends the nearest is found.
    const STEPS: i32 = 16;
    let at = |step: i32| from + (until - from) * f64::from(step) / f64::from(STEPS);
    let steps = (1..=STEPS).map(|step| (step, height(at(step))));
    let (beyond, above) = steps.into_iter().find(|of| of.1 > 0.0)?;
    let (mut within, mut without) = (at(beyond - 1), at(beyond));
    let (mut low, mut high) = (height(within).min(0.0), above);
    while (without - within).abs() > 1e-7 * (until - from).abs() {
        let part = if high.is_finite() && low < high {
            -low / (high - low)
        } else {
            0.5
        };
        let next = within + (without - within) * part.clamp(0.001, 0.999);
        match height(next) {
            found if found > 0.0 => (without, high, low) = (next, found, 0.5 * low),
            found if found < -1e-9 => (within, low, high) = (next, found, 0.5 * high),
            _ => return Some(next),
        }
    }
    Some(0.5 * (within + without))
}
