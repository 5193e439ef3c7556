//! Student's distribution around a true difference that is not zero.
//!
//! Needed for limits of a standardised difference and for power. With a standard normal `z` and the spread estimate
//! `s` (`ν s²` chi-square on ν degrees of freedom) the probability is that of `z + δ <= t·s`. It is taken by the
//! trapezoid rule, which for such bell-shaped integrands converges faster than any power of the step: over `ln s`
//! while t is moderate, over `z` when it is large. Unlike the usual series neither underflows for large differences.

use super::distribution::{chi_square_upper, normal_density, normal_lower};

/// Values of t above which the integral over `z` is the smoother one.
const LARGE: f64 = 60.0;

/// Probability below `t` with `df > 0` degrees of freedom and noncentrality `delta`; absolute error below 1e-9.
pub fn noncentral_t_lower(t: f64, df: f64, delta: f64) -> f64 {
    if t.abs() <= LARGE {
        Spreads::of(t, df).below(delta)
    } else if t > 0.0 {
        over_normal(t, df, delta)
    } else {
        1.0 - over_normal(-t, df, -delta)
    }
}

/// `∫ Φ(t·s − δ) f(s) ds`, by steps in `ln s`; the steps and their weights serve every δ.
struct Spreads {
    /// `t·s` and the density of `ln s` there.
    steps: Vec<(f64, f64)>,
    weight: f64,
}

impl Spreads {
    fn of(t: f64, df: f64) -> Spreads {
        let width = 9.0 / libm::sqrt(2.0 * df);
        let (from, to) = (-width - 40.0 / df, width.min(3.0));
        // Narrow enough for the density of ln s and for the rise of the normal probability across s = δ/t.
        let step = (width / 60.0).min(0.25 / t.abs().max(1.0));
        let count = libm::ceil((to - from) / step) as usize;
        let at = |i: usize| {
            let ln_s = from + step * i as f64;
            let s = libm::exp(ln_s);
            (t * s, libm::exp(df * (ln_s - 0.5 * s * s + 0.5)))
        };
        let steps: Vec<(f64, f64)> = (0..=count).map(at).collect();
        let weight = steps.iter().map(|(_, density)| density).sum();
        Spreads { steps, weight }
    }

    fn below(&self, delta: f64) -> f64 {
        let part = |&(ts, density): &(f64, f64)| density * normal_lower(ts - delta);
        self.steps.iter().map(part).sum::<f64>() / self.weight
    }
}

/// `∫ φ(z) P(s >= (z + δ)/t) dz` for `t > 0`, by steps in `z`.
fn over_normal(t: f64, df: f64, delta: f64) -> f64 {
    let step = 0.05 * (t / libm::sqrt(2.0 * df)).min(1.0);
    let steps = libm::ceil(18.0 / step) as usize;
    let at = |i: usize| {
        let z = -9.0 + step * i as f64;
        let s = ((z + delta) / t).max(0.0);
        step * normal_density(z) * chi_square_upper(df * s * s, df)
    };
    (0..=steps).map(at).sum::<f64>().min(1.0)
}

/// The noncentrality at which a value below `t` has probability `p`, `0 < p < 1`.
///
/// False position between two brackets, halving the weight of an end that stays (the Illinois rule).
pub fn noncentrality(t: f64, df: f64, p: f64) -> f64 {
    let spreads = (t.abs() <= LARGE).then(|| Spreads::of(t, df));
    let below = |delta: f64| match &spreads {
        Some(spreads) => spreads.below(delta),
        None => noncentral_t_lower(t, df, delta),
    };
    let excess = |delta: f64| below(delta) - p;
    let mut reach = 4.0 + 4.0 * t.abs() / libm::sqrt(2.0 * df);
    let (mut at_low, mut at_high) = (excess(t - reach), excess(t + reach));
    while at_high > 0.0 || at_low < 0.0 {
        reach *= 2.0;
        (at_low, at_high) = (excess(t - reach), excess(t + reach));
    }
    let (mut low, mut high) = (t - reach, t + reach);
    for _ in 0..200 {
        let between = (low * at_high - high * at_low) / (at_high - at_low);
        let found = excess(between);
        // The probability itself carries an error near 1e-12.
        if found.abs() < 1e-13 || high - low <= 1e-12 * (low.abs() + high.abs()) {
            return between;
        }
        if found > 0.0 {
            (low, at_low, at_high) = (between, found, 0.5 * at_high);
        } else {
            (high, at_high, at_low) = (between, found, 0.5 * at_low);
        }
    }
    0.5 * (low + high)
}
