//! Heritability from the readings themselves, by restricted maximum likelihood (Patterson & Thompson 1971).
//!
//! −2 ln L = Σ ln |V| + Σ ln prior variances + ln |equations| + yᵀPy, with the whole variance profiled out: at given
//! fractions of it the best scale is yᵀPy / (n − fixed effects). The fractions are searched from several starts by the
//! simplex of Nelder & Mead (1965), begun again where it ends until that gains nothing; the interval is the set of
//! heritabilities whose profile lies within 3.84/2 of the best.

use super::assembly::Equations;
use super::equations::{Design, Relatives, Unsolvable, Variances};
use super::predict::Solved;

/// Parts of the whole variance; what is left over is the error of a reading.
#[derive(Clone, PartialEq, Debug)]
pub struct Fractions {
    /// Heritability h².
    pub additive: f64,
    /// Permanent but not inherited.
    pub permanent: f64,
    /// One for each group of columns.
    pub groups: Vec<f64>,
    /// Variances of further groups as multiples of the whole; they stand beside it and are never searched for.
    pub apart: Vec<f64>,
}

impl Fractions {
    /// Variances for a whole variance; `None` when a part is negative or nothing is left for the error.
    pub fn of_whole(&self, whole: f64) -> Option<Variances> {
        let used = self.additive + self.permanent + self.groups.iter().sum::<f64>();
        let sound = self.additive > 0.0
            && self.permanent >= 0.0
            && self.groups.iter().all(|part| *part >= 0.0);
        (sound && used < 1.0 && whole > 0.0).then(|| Variances {
            additive: self.additive * whole,
            permanent: self.permanent * whole,
            residual: (1.0 - used) * whole,
            groups: self
                .groups
                .iter()
                .chain(&self.apart)
                .map(|part| part * whole)
                .collect(),
        })
    }
}

/// What the readings say of heritability.
#[derive(Clone, PartialEq, Debug)]
pub struct Estimate {
    /// The most likely fractions.
    pub fractions: Fractions,
    /// The whole variance, in squared units of the readings.
    pub whole: f64,
    /// Limits of h² at 95 %.
    pub limits: (f64, f64),
    /// −2 ln L at the best.
    pub deviance: f64,
}

const LEAST: f64 = 1e-4;
/// 95 % point of chi-squared with one degree of freedom.
const WITHIN: f64 = 3.841_458_820_694_124;

/// Estimates heritability and the other fractions.
///
/// # Errors
/// As [`Unsolvable`] says.
pub fn estimate(
    relatives: &Relatives,
    design: &Design,
    groups: usize,
    apart: &[f64],
) -> Result<Estimate, Unsolvable> {
    let deviance = |parts: &Fractions| {
        whole_and_deviance(relatives, design, parts).map_or(f64::INFINITY, |(_, d)| d)
    };
    let best = most_likely(&|x: &[f64]| deviance(&fractions(x, apart)), 2 + groups);
    let best = best.ok_or(Unsolvable::NotDefinite)?;
    let found = fractions(&best, apart);
    let (whole, least) =
        whole_and_deviance(relatives, design, &found).ok_or(Unsolvable::NotDefinite)?;
    let profile = |h2: f64| {
        let inner = |rest: &[f64]| deviance(&fractions_at(h2, rest, apart));
        settled(&inner, best[1..].to_vec()).1
    };
    let limits = (
        limit(&profile, found.additive, LEAST.min(found.additive), least),
        limit(&profile, found.additive, 1.0 - LEAST, least),
    );
    Ok(Estimate {
        fractions: found,
        whole,
        limits,
        deviance: least,
    })
}

/// The point of the least value, out of several starts at different heritabilities; `None` if there is no such point.
fn most_likely(deviance: &impl Fn(&[f64]) -> f64, size: usize) -> Option<Vec<f64>> {
    let start = |h2: f64| {
        let mut parts = vec![(1.0 - h2) / (size as f64 + 1.0); size];
        parts[0] = h2;
        settled(deviance, roots(&parts))
    };
    let found = [0.15, 0.4, 0.7].into_iter().map(start);
    let best = found.min_by(|a, b| a.1.total_cmp(&b.1))?;
    best.1.is_finite().then_some(best.0)
}

/// The heritability between the best and an end at which the profile leaves the interval; the end if it never does.
fn limit(profile: &impl Fn(f64) -> f64, best: f64, end: f64, least: f64) -> f64 {
    if profile(end) <= least + WITHIN {
        return end;
    }
    let (mut inside, mut outside) = (best, end);
    for _ in 0..12 {
        let middle = 0.5 * (inside + outside);
        if profile(middle) <= least + WITHIN {
            inside = middle
        } else {
            outside = middle
        }
    }
    inside
}

/// The best whole variance at given fractions, and −2 ln L there.
fn whole_and_deviance(
    relatives: &Relatives,
    design: &Design,
    parts: &Fractions,
) -> Option<(f64, f64)> {
    let variances = parts.of_whole(1.0)?;
    let equations = Equations::of(relatives, design, &variances).ok()?;
    let factor = equations.factor(relatives, design).ok()?;
    let logarithms = equations.log_spread
        + equations.log_prior
        + equations.log_absorbed()
        + factor.log_determinant();
    let solved = Solved::with((relatives, design, &variances), equations, factor);
    let (whole, free) = (solved.whole_variance(), solved.freedom() as f64);
    // Not a number when no reading is left over to tell a variance by.
    (whole > 0.0).then(|| (whole, logarithms + free * (libm::log(whole) + 1.0)))
}

/// Heritability that counts as none, since the equations need one above 0.
const NONE: f64 = 1e-9;
/// A part beside which the error no longer counts.
const ALL: f64 = 1e8;

/// Fractions from unbounded numbers: the square of each is its part against the error. So none is negative, and a part of
/// nothing lies where a search can reach it.
fn fractions(roots: &[f64], apart: &[f64]) -> Fractions {
    let parts = shared_out(1.0, roots);
    Fractions {
        additive: parts[0].max(NONE),
        permanent: parts[1],
        groups: parts[2..].to_vec(),
        apart: apart.to_vec(),
    }
}

/// The same with heritability held.
fn fractions_at(h2: f64, rest: &[f64], apart: &[f64]) -> Fractions {
    let parts = shared_out(1.0 - h2, rest);
    Fractions {
        additive: h2,
        permanent: parts[0],
        groups: parts[1..].to_vec(),
        apart: apart.to_vec(),
    }
}

fn shared_out(whole: f64, roots: &[f64]) -> Vec<f64> {
    let weights: Vec<f64> = roots.iter().map(|x| (x * x).min(ALL)).collect();
    let sum = 1.0 + weights.iter().sum::<f64>();
    weights.iter().map(|weight| whole * weight / sum).collect()
}

/// The numbers that give some fractions.
fn roots(parts: &[f64]) -> Vec<f64> {
    let error = 1.0 - parts.iter().sum::<f64>();
    let root = |part: &f64| libm::sqrt(part / error);
    parts.iter().map(root).collect()
}

/// What a search gains when it is begun again, below which it has settled.
const GAIN: f64 = 1e-7;
/// Times a search is begun again at most.
const AGAIN: usize = 8;

/// The least value of a function from a start; a simplex that has collapsed too early is opened again.
fn settled(function: &impl Fn(&[f64]) -> f64, start: Vec<f64>) -> (Vec<f64>, f64) {
    let mut found = simplex(function, start);
    for _ in 0..AGAIN {
        let again = simplex(function, found.0.clone());
        let gain = found.1 - again.1;
        if gain > 0.0 {
            found = again;
        }
        if gain.is_nan() || gain < GAIN {
            break;
        }
    }
    found
}

/// The least value of a function from a start, by a simplex; always the same steps.
fn simplex(function: &impl Fn(&[f64]) -> f64, start: Vec<f64>) -> (Vec<f64>, f64) {
    let size = start.len();
    let mut corners: Vec<(Vec<f64>, f64)> = Vec::with_capacity(size + 1);
    for at in 0..=size {
        let mut corner = start.clone();
        if at > 0 {
            corner[at - 1] += 0.5;
        }
        let value = function(&corner);
        corners.push((corner, value));
    }
    for _ in 0..60 * size.max(1) {
        corners.sort_by(|a, b| a.1.total_cmp(&b.1));
        let (best, worst) = (corners[0].1, corners[size].1);
        if (worst - best).abs() <= 1e-9 * (1.0 + best.abs()) {
            break;
        }
        let centre: Vec<f64> = (0..size)
            .map(|d| {
                corners[..size]
                    .iter()
                    .map(|corner| corner.0[d])
                    .sum::<f64>()
                    / size as f64
            })
            .collect();
        let toward = |step: f64| -> (Vec<f64>, f64) {
            let corner: Vec<f64> = (0..size)
                .map(|d| centre[d] + step * (corners[size].0[d] - centre[d]))
                .collect();
            let value = function(&corner);
            (corner, value)
        };
        let reflected = toward(-1.0);
        let next = if reflected.1 < best {
            let farther = toward(-2.0);
            if farther.1 < reflected.1 {
                farther
            } else {
                reflected
            }
        } else if size > 1 && reflected.1 < corners[size - 1].1 {
            reflected
        } else {
            let inner = toward(if reflected.1 < worst { -0.5 } else { 0.5 });
            if inner.1 < worst.min(reflected.1) {
                inner
            } else {
                let best = corners[0].0.clone();
                for corner in &mut corners[1..] {
                    corner
                        .0
                        .iter_mut()
                        .zip(&best)
                        .for_each(|(x, b)| *x = 0.5 * (*x + b));
                    corner.1 = function(&corner.0);
                }
                continue;
            }
        };
        corners[size] = next;
    }
    corners.sort_by(|a, b| a.1.total_cmp(&b.1));
    corners.swap_remove(0)
}
