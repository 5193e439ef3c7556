//! How do the siblings of one pod grow, taken together?
//!
//! A mixed model: common coefficients for the pod, and for each sibling its own deviation in level and, if asked for,
//! in slope, fitted by restricted maximum likelihood (Patterson & Thompson 1971; Laird & Ware 1982, from memory). For
//! leaf span use logarithms and `1, T, T²` with T in tens of months. The likelihood is searched from several starts and
//! the gradient at the answer is checked, because single searches are known to stop short of the top.

use super::error::{StatisticsError, require};
use super::matrix::{Factor, Matrix, dot};
use super::nelder_mead::lowest;

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
pub fn fit_mixed(rows: &[Row], varies: Varies) -> Result<MixedFit, StatisticsError> {
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
        .ok_or(StatisticsError::NotFitted)?;
    let gradient = steepness(&value, &at);
    let state = pod.profile(&at).ok_or(StatisticsError::NotFitted)?;
    if !least.is_finite() || gradient > STEEPEST {
        return Err(StatisticsError::NotFitted);
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

struct Pod {
    /// For each sibling the sums of products of its terms and, last, its values; empty without a reading.
    siblings: Vec<Option<Matrix>>,
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
    fn new(rows: &[Row], varies: Varies) -> Result<Self, StatisticsError> {
        let terms = rows.first().map_or(0, |row| row.terms.len());
        let values: Vec<f64> = rows.iter().map(|row| row.value).collect();
        require(&values, terms + varies.count() + 2)?;
        let mut siblings: Vec<Option<Matrix>> = Vec::new();
        for row in rows {
            require(&row.terms, varies.count())?;
            if row.terms.len() != terms {
                return Err(StatisticsError::Unpaired {
                    left: terms,
                    right: row.terms.len(),
                });
            }
            if siblings.len() <= row.sibling {
                siblings.resize(row.sibling + 1, None);
            }
            let products =
                siblings[row.sibling].get_or_insert_with(|| Matrix::zero(terms + 1, terms + 1));
            add_products(products, row);
        }
        let read = siblings.iter().flatten().count();
        if read < 3 {
            return Err(StatisticsError::TooFew {
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

    /// The triangular root `L` of the covariance of deviations relative to the variance of a reading.
    fn root(&self, at: &[f64]) -> Matrix {
        let mut root = Matrix::zero(self.varies.count(), self.varies.count());
        *root.at_mut(0, 0) = at[0];
        if let [_, across, slope] = at {
            *root.at_mut(1, 0) = *across;
            *root.at_mut(1, 1) = *slope;
        }
        root
    }

    /// With `Z` the terms that vary, a sibling's relative covariance is `V = I + Z·L·Lᵀ·Zᵀ`. Its inverse is
    /// `I − Z·L·M⁻¹·Lᵀ·Zᵀ` and its determinant that of `M = I + Lᵀ·Zᵀ·Z·L`, so only products of terms are needed.
    fn middle(&self, products: &Matrix, root: &Matrix) -> (Matrix, Option<Factor>) {
        let (q, side) = (self.varies.count(), products.columns());
        let mut seen = Matrix::zero(q, side);
        for i in 0..q {
            for j in 0..side {
                *seen.at_mut(i, j) = (0..q).map(|k| root.at(k, i) * products.at(k, j)).sum();
            }
        }
        let mut middle = Matrix::zero(q, q);
        for i in 0..q {
            for j in 0..q {
                let inner: f64 = (0..q).map(|k| seen.at(i, k) * root.at(k, j)).sum();
                *middle.at_mut(i, j) = inner + f64::from(u8::from(i == j));
            }
        }
        (seen, middle.factor())
    }

    /// Sums of products weighted by the inverse covariances, and the logarithm of their determinants.
    fn weighted(&self, root: &Matrix) -> Option<(Matrix, f64)> {
        let side = self.terms + 1;
        let (mut sums, mut ln_volume) = (Matrix::zero(side, side), 0.0);
        for products in self.siblings.iter().flatten() {
            let (seen, factor) = self.middle(products, root);
            let factor = factor?;
            ln_volume += factor.ln_determinant();
            let columns = seen.transposed();
            for j in 0..side {
                let solved = factor.solve(columns.row(j));
                for i in 0..side {
                    *sums.at_mut(i, j) += products.at(i, j) - dot(columns.row(i), &solved);
                }
            }
        }
        Some((sums, ln_volume))
    }

    /// Best coefficients and variance for a relative covariance, and the restricted log likelihood they reach.
    fn profile(&self, at: &[f64]) -> Option<State> {
        let (sums, ln_volume) = self.weighted(&self.root(at))?;
        let p = self.terms;
        let rows: Vec<Vec<f64>> = (0..p).map(|i| sums.row(i)[..p].to_vec()).collect();
        let pull = &sums.row(p)[..p];
        let factor = Matrix::from_rows(&rows)?.factor()?;
        let coefficients = factor.solve(pull);
        let df = (self.readings - p) as f64;
        let within = (sums.at(p, p) - dot(&coefficients, pull)) / df;
        // What is left of equal values is rounding.
        if within.is_nan() || within <= 1e-14 * sums.at(p, p) {
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
        let root = self.root(at);
        let deviation = |products: &Option<Matrix>| match products {
            Some(products) => self.deviation(products, &root, &state.coefficients),
            None => vec![0.0; self.varies.count()],
        };
        let deviations = self.siblings.iter().map(deviation).collect();
        let mut between = root.product(&root.transposed());
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

    /// `L·M⁻¹·Lᵀ·Zᵀ·(y − X·b)`.
    fn deviation(&self, products: &Matrix, root: &Matrix, coefficients: &[f64]) -> Vec<f64> {
        let (seen, factor) = self.middle(products, root);
        let left =
            |i: usize| seen.at(i, self.terms) - dot(&seen.row(i)[..self.terms], coefficients);
        let left: Vec<f64> = (0..self.varies.count()).map(left).collect();
        factor.map_or_else(
            || vec![0.0; left.len()],
            |factor| root.times(&factor.solve(&left)),
        )
    }
}

fn add_products(products: &mut Matrix, row: &Row) {
    let all: Vec<f64> = row.terms.iter().copied().chain([row.value]).collect();
    for (i, a) in all.iter().enumerate() {
        for (j, b) in all.iter().enumerate() {
            *products.at_mut(i, j) += a * b;
        }
    }
}
