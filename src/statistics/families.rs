//! How much of a trait's spread lies between pods rather than within them?
//!
//! Variance components by analysis of variance and the intraclass correlation of siblings, with the heritability it
//! bounds (twice the correlation of full siblings). With few pods the error is large and is always given; below about
//! 20 pods of 10 a heritability stated by the grower is worth more than one estimated here.

use super::describe::{mean, squares};
use super::distribution::{f_upper, normal_density, normal_quantile};
use super::error::{StatisticsError, require, require_within};

/// Variance between and within pods.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Components {
    /// Mean square between pods and within pods.
    pub mean_squares: (f64, f64),
    /// Effective number of siblings per pod.
    pub siblings: f64,
    /// Variance between pods; may come out below zero, and then is best read as none.
    pub between: f64,
    /// Variance within pods.
    pub within: f64,
    /// Intraclass correlation `between / (between + within)`.
    pub correlation: f64,
    /// Its standard error (Fisher 1925, from memory), by the effective number of siblings.
    pub standard_error: f64,
    /// F of pods and its probability if pods do not differ.
    pub f: (f64, f64),
}

impl Components {
    /// Heritability of full siblings without common environment, `2t`, held within 0 to 1, and its standard error.
    pub fn heritability(&self) -> (f64, f64) {
        (
            (2.0 * self.correlation).clamp(0.0, 1.0),
            2.0 * self.standard_error,
        )
    }
}

/// Components of variance from pods of any size; empty pods are left out.
///
/// # Errors
/// Fewer than two pods, no pod with a second sibling, a value not finite, or no spread within pods.
pub fn components(pods: &[Vec<f64>]) -> Result<Components, StatisticsError> {
    let filled: Vec<Vec<f64>> = pods.iter().filter(|pod| !pod.is_empty()).cloned().collect();
    let k = filled.len();
    if k < 2 {
        return Err(StatisticsError::TooFew {
            found: k,
            needed: 2,
        });
    }
    let all = filled.concat();
    require(&all, k + 1)?;
    let (n, grand) = (all.len() as f64, mean(&all));
    let size_squares: f64 = filled
        .iter()
        .map(|pod| (pod.len() * pod.len()) as f64)
        .sum();
    let siblings = (n - size_squares / n) / (k - 1) as f64;
    let between: f64 = filled
        .iter()
        .map(|p| p.len() as f64 * (mean(p) - grand) * (mean(p) - grand))
        .sum();
    let df = ((k - 1) as f64, n - k as f64);
    let (msb, msw) = (
        between / df.0,
        filled.iter().map(|pod| squares(pod)).sum::<f64>() / df.1,
    );
    if msw <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let variance = (msb - msw) / siblings;
    let correlation = variance / (variance + msw);
    Ok(Components {
        mean_squares: (msb, msw),
        siblings,
        between: variance,
        within: msw,
        correlation,
        standard_error: correlation_error(correlation, siblings, k as f64),
        f: (msb / msw, f_upper(msb / msw, df.0, df.1)),
    })
}

/// Standard error of an intraclass correlation `t` from `pods` pods of `siblings` each:
/// `(1 − t)(1 + (n − 1)t) √(2/(n(n − 1)(N − 1)))` (Fisher 1925, from memory).
pub fn correlation_error(t: f64, siblings: f64, pods: f64) -> f64 {
    let n = siblings;
    (1.0 - t) * (1.0 + (n - 1.0) * t) * libm::sqrt(2.0 / (n * (n - 1.0) * (pods - 1.0)))
}

/// What turns a heritability of "shows it or not" into one of the liability behind: `p(1 − p)/z²` (Dempster & Lerner
/// 1950), for a share `p` strictly between 0 and 1 that shows it.
///
/// # Errors
/// `p` is not strictly between 0 and 1.
pub fn liability_factor(p: f64) -> Result<f64, StatisticsError> {
    require_within(p, f64::MIN_POSITIVE, 1.0 - f64::EPSILON)?;
    let z = normal_density(normal_quantile(p));
    Ok(p * (1.0 - p) / (z * z))
}

/// Weights of a plant's own value and its pod's mean, and what they achieve.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct OwnAndPod {
    /// Weight of the own deviation from the overall mean.
    pub own: f64,
    /// Weight of the pod mean's deviation, the plant itself included.
    pub pod_mean: f64,
    /// Correlation of index and breeding value.
    pub accuracy: f64,
    /// The same for the own value alone.
    pub accuracy_own: f64,
    /// The same for the deviation from the pod mean alone.
    pub accuracy_within: f64,
}

/// The best combination of own value and pod mean for full siblings (Lush 1947, from memory): heritability
/// `h2` (0 to 1), `n >= 2` siblings read, intraclass correlation `t` of their values (at least `h2/2`, below 1).
///
/// # Errors
/// A figure out of its range.
pub fn own_and_pod(h2: f64, n: usize, t: f64) -> Result<OwnAndPod, StatisticsError> {
    require_within(h2, 0.0, 1.0)?;
    require_within(t, 0.5 * h2 - 1e-9, 1.0 - 1e-9)?;
    if n < 2 {
        return Err(StatisticsError::TooFew {
            found: n,
            needed: 2,
        });
    }
    let (r, n) = (0.5, n as f64);
    let (apart, together) = (1.0 - t, 1.0 + (n - 1.0) * t);
    let h = libm::sqrt(h2);
    Ok(OwnAndPod {
        own: (1.0 - r) * h2 / apart,
        pod_mean: (r - t) * n * h2 / (apart * together),
        accuracy: h * libm::sqrt(1.0 + (r - t) * (r - t) * (n - 1.0) / (apart * together)),
        accuracy_own: h,
        accuracy_within: h * (1.0 - r) * libm::sqrt((n - 1.0) / (n * apart)),
    })
}
