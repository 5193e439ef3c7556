//! How do the siblings of one pod grow, taken together?
//!
//! A mixed model: common coefficients for the pod, and for each sibling its own deviation in level and, if asked for,
//! in slope, fitted by restricted maximum likelihood (Patterson & Thompson 1971; Laird & Ware 1982, from memory). For
//! leaf span use logarithms and `1, T, T²` with T in tens of months. The likelihood is searched from several starts and
//! the gradient at the answer is checked, because single searches are known to stop short of the top.

use super::descent::lowest;
use super::matrix::{Matrix, dot};
use super::unanswered::{Unanswered, require};

/// One reading of one sibling.
#[derive(Clone, PartialEq, Debug)]
pub struct Row {
    /// Place of the sibling, from 0.
    pub sibling: usize,
    /// Common terms, such as `1, T, T²`; the first one or two of them also vary by sibling.
    pub terms: Vec<f64>,
    /// What was read, such as ln span.
    pub value: f64,
}

/// What varies by sibling.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Varies {
    /// The first term only (level).
    Level,
    /// The first two terms (level and slope), which may be correlated.
    LevelAndSlope,
}

impl Varies {
    fn count(self) -> usize {
        match self {
            Self::Level => 1,
            Self::LevelAndSlope => 2,
        }
    }
}

/// A fitted pod.
#[derive(Clone, PartialEq, Debug)]
pub struct MixedFit {
    /// Common coefficients.
    pub coefficients: Vec<f64>,
    /// Their standard errors, given the variances.
    pub standard_errors: Vec<f64>,
    /// Covariance of the siblings' deviations.
    pub between: Matrix,
    /// Variance of one reading around its sibling's line.
    pub within: f64,
    /// Predicted deviations, one list per sibling (0 for a sibling without reading).
    pub deviations: Vec<Vec<f64>>,
    /// Restricted log likelihood, with its constants.
    pub log_likelihood: f64,
    /// Largest slope of the log likelihood at the answer by any search parameter; near 0 at a true top.
    pub gradient: f64,
}

/// Slope of the log likelihood above which an answer is not taken for a top.
const STEEPEST: f64 = 1e-3;

/// Fits the model.
///
/// # Errors
/// Fewer than three siblings, rows not more than common terms and variances, terms of different number or repeating
/// each other, a value not finite, or no top found.
pub fn fit_mixed(rows: &[Row], varies: Varies) -> Result<MixedFit, Unanswered> {
    let pod = Pod::new(rows, varies)?;
    let value = |at: &[f64]| {
        pod.profile(at)
            .map_or(f64::INFINITY, |state| -state.log_likelihood)
    };
    let starts: &[&[f64]] = match varies {
        Varies::Level => &[&[0.3], &[1.0], &[3.0]],
        Varies::LevelAndSlope => &[
            &[1.0, 0.0, 1.0],
            &[3.0, 0.0, 0.3],
            &[0.3, 0.0, 3.0],
            &[2.0, 1.0, 1.0],
            &[2.0, -1.0, 1.0],
        ],
    };
    let tops = starts.iter().map(|start| lowest(&value, start, 0.5));
    let (at, least) = tops
        .min_by(|a, b| a.1.total_cmp(&b.1))
        .ok_or(Unanswered::NotFitted)?;
    let gradient = steepness(&value, &at);
    let state = pod.profile(&at).ok_or(Unanswered::NotFitted)?;
    if !least.is_finite() || gradient > STEEPEST {
        return Err(Unanswered::NotFitted);
    }
    Ok(pod.report(&at, state, gradient))
}

fn steepness(value: &impl Fn(&[f64]) -> f64, at: &[f64]) -> f64 {
    let slope = |i: usize| {
        let step = 1e-4 * at[i].abs().max(0.1);
        let moved = |by: f64| {
            let mut point = at.to_vec();
            point[i] += by;
            value(&point)
        };
        ((moved(step) - moved(-step)) / (2.0 * step)).abs()
    };
    (0..at.len()).map(slope).fold(0.0, f64::max)
}

/// The readings of one sibling.
struct Sibling {
    terms: Vec<Vec<f64>>,
    values: Vec<f64>,
}

struct Pod {
    siblings: Vec<Sibling>,
    varies: Varies,
    readings: usize,
    terms: usize,
}

/// Everything known once the relative covariance of the deviations is fixed.
struct State {
    coefficients: Vec<f64>,
    inverse: Matrix,
    within: f64,
    log_likelihood: f64,
}

impl Pod {
    fn new(rows: &[Row], varies: Varies) -> Result<Self, Unanswered> {
        let terms = rows.first().map_or(0, |row| row.terms.len());
        let values: Vec<f64> = rows.iter().map(|row| row.value).collect();
        require(&values, terms + varies.count() + 2)?;
        let mut siblings: Vec<Sibling> = Vec::new();
        for row in rows {
            require(&row.terms, varies.count())?;
            if row.terms.len() != terms {
                return Err(Unanswered::Unpaired {
                    left: terms,
                    right: row.terms.len(),
                });
            }
            while siblings.len() <= row.sibling {
                siblings.push(Sibling {
                    terms: Vec::new(),
                    values: Vec::new(),
                });
            }
            siblings[row.sibling].terms.push(row.terms.clone());
            siblings[row.sibling].values.push(row.value);
        }
        let read = siblings
            .iter()
            .filter(|sibling| !sibling.values.is_empty())
            .count();
        if read < 3 {
            return Err(Unanswered::TooFew {
                found: read,
                needed: 3,
            });
        }
        Ok(Self {
            siblings,
            varies,
            readings: rows.len(),
            terms,
        })
    }

    /// Covariance of the deviations relative to the variance of a reading, from its triangular root.
    fn relative(&self, at: &[f64]) -> Matrix {
        let mut relative = Matrix::zero(self.varies.count(), self.varies.count());
        *relative.at_mut(0, 0) = at[0] * at[0];
        if let [a, b, c] = at {
            *relative.at_mut(0, 1) = a * b;
            *relative.at_mut(1, 0) = a * b;
            *relative.at_mut(1, 1) = b * b + c * c;
        }
        relative
    }

    /// One sibling's covariance of readings, relative to that of one reading: `I + Z·R·Zᵀ`.
    fn covariance(&self, sibling: &Sibling, relative: &Matrix) -> Matrix {
        let (n, q) = (sibling.values.len(), self.varies.count());
        let mut covariance = Matrix::zero(n, n);
        for i in 0..n {
            let left = relative.times(&sibling.terms[i][..q]);
            for j in 0..n {
                *covariance.at_mut(i, j) = dot(&left, &sibling.terms[j][..q]) + f64::from(i == j);
            }
        }
        covariance
    }

    /// Best coefficients and variance for a relative covariance, and the restricted log likelihood they reach.
    fn profile(&self, at: &[f64]) -> Option<State> {
        let relative = self.relative(at);
        let p = self.terms;
        let (mut normal, mut pull, mut squares, mut ln_volume) =
            (Matrix::zero(p, p), vec![0.0; p], 0.0, 0.0);
        for sibling in self
            .siblings
            .iter()
            .filter(|sibling| !sibling.values.is_empty())
        {
            let factor = self.covariance(sibling, &relative).factor()?;
            ln_volume += factor.ln_determinant();
            let solved = factor.solve(&sibling.values);
            squares += dot(&sibling.values, &solved);
            for j in 0..p {
                let column: Vec<f64> = sibling.terms.iter().map(|terms| terms[j]).collect();
                let weighted = factor.solve(&column);
                pull[j] += dot(&column, &solved);
                for k in 0..p {
                    *normal.at_mut(j, k) += sibling
                        .terms
                        .iter()
                        .zip(&weighted)
                        .map(|(t, w)| t[k] * w)
                        .sum::<f64>();
                }
            }
        }
        let factor = normal.factor()?;
        let coefficients = factor.solve(&pull);
        let df = (self.readings - p) as f64;
        let within = (squares - dot(&coefficients, &pull)) / df;
        if within.is_nan() || within <= 0.0 {
            return None;
        }
        let constant = df * (1.0 + libm::log(std::f64::consts::TAU * within));
        let log_likelihood = -0.5 * (constant + ln_volume + factor.ln_determinant());
        Some(State {
            coefficients,
            inverse: factor.inverse(),
            within,
            log_likelihood,
        })
    }

    fn report(&self, at: &[f64], state: State, gradient: f64) -> MixedFit {
        let relative = self.relative(at);
        let deviations = self
            .siblings
            .iter()
            .map(|sibling| self.deviation(sibling, &relative, &state))
            .collect();
        let mut between = relative;
        for i in 0..between.rows() {
            for j in 0..between.columns() {
                *between.at_mut(i, j) *= state.within;
            }
        }
        let error = |i: usize| libm::sqrt(state.within * state.inverse.at(i, i));
        MixedFit {
            standard_errors: (0..self.terms).map(error).collect(),
            between,
            within: state.within,
            deviations,
            log_likelihood: state.log_likelihood,
            gradient,
            coefficients: state.coefficients,
        }
    }

    /// `R·Zᵀ·V⁻¹·(y − X·b)`; zeros where nothing was read.
    fn deviation(&self, sibling: &Sibling, relative: &Matrix, state: &State) -> Vec<f64> {
        let q = self.varies.count();
        let fitted = |terms: &Vec<f64>| dot(terms, &state.coefficients);
        let residual: Vec<f64> = sibling
            .values
            .iter()
            .zip(&sibling.terms)
            .map(|(y, t)| y - fitted(t))
            .collect();
        let solved = match self.covariance(sibling, relative).factor() {
            Some(factor) if !residual.is_empty() => factor.solve(&residual),
            _ => return vec![0.0; q],
        };
        let by_term = |k: usize| {
            sibling
                .terms
                .iter()
                .zip(&solved)
                .map(|(t, s)| t[k] * s)
                .sum()
        };
        relative.times(&(0..q).map(by_term).collect::<Vec<f64>>())
    }
}
