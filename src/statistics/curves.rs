//! Which growth curve, if any, do a plant's readings support?
//!
//! Exponential `a·e^(rt)`, Gompertz `A·e^(−b·e^(−kt))`, monomolecular `A(1 − b·e^(−kt))` and logistic
//! `A/(1 + b·e^(−kt))`, by least squares on the logarithms of sizes, compared by AICc (Hurvich & Tsai 1989, from
//! memory). A young series holds no final size: a curve with one is offered only from seven ages, with
//! a fitted final size below three times the largest reading and a standard error smaller than itself. The search is in
//! `nelder_mead`.

use super::error::{StatisticsError, logs, require};
use super::growth::Reading;
use super::nelder_mead::{Model, Slopes, least_squares, normal_matrix};
use rayon::prelude::*;

/// Shape of a curve.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Shape {
    /// `a·e^(rt)`: parameters a, r.
    Exponential,
    /// `A(1 − b·e^(−kt))`: parameters A, b, k.
    Monomolecular,
    /// `A/(1 + b·e^(−kt))`: parameters A, b, k.
    Logistic,
    /// `A·e^(−b·e^(−kt))`: parameters A, b, k.
    Gompertz,
}

impl Shape {
    /// All shapes, simplest first.
    pub const ALL: [Self; 4] = [
        Self::Exponential,
        Self::Monomolecular,
        Self::Logistic,
        Self::Gompertz,
    ];

    fn parameters(self) -> usize {
        if self == Self::Exponential { 2 } else { 3 }
    }

    /// Size at an age for parameters in the order of the shape.
    pub fn size(self, parameters: &[f64], age: f64) -> f64 {
        if self == Self::Exponential {
            return parameters[0] * libm::exp(parameters[1] * age);
        }
        let fall = parameters[1] * libm::exp(-parameters[2] * age);
        match self {
            Self::Monomolecular => parameters[0] * (1.0 - fall),
            Self::Logistic => parameters[0] / (1.0 + fall),
            _ => parameters[0] * libm::exp(-fall),
        }
    }

    /// Relative changes of size per unit of each internal parameter (ln a, r or ln A, ln b, ln k), given the size.
    fn slopes(self, parameters: &[f64], age: f64) -> Slopes {
        if self == Self::Exponential {
            return [1.0, age, 0.0];
        }
        let fall = parameters[1] * libm::exp(-parameters[2] * age);
        let by_ln_b = match self {
            Self::Monomolecular => -fall / (1.0 - fall),
            Self::Logistic => -fall / (1.0 + fall),
            _ => -fall,
        };
        [1.0, by_ln_b, -by_ln_b * parameters[2] * age]
    }

    /// The quantity that runs straight with slope −k once the final size is known.
    fn straightened(self, share: f64) -> f64 {
        match self {
            Self::Monomolecular => libm::log(1.0 - share),
            Self::Logistic => libm::log(1.0 / share - 1.0),
            _ => libm::log(-libm::log(share)),
        }
    }
}

/// A fitted curve.
#[derive(Clone, PartialEq, Debug)]
pub struct CurveFit {
    /// Its shape.
    pub shape: Shape,
    /// Parameters in the order of the shape.
    pub parameters: Vec<f64>,
    /// Their standard errors; infinite where the readings say nothing about one.
    pub standard_errors: Vec<f64>,
    /// Sum of squared residuals of the logarithms.
    pub rss: f64,
    /// Small-sample information criterion; needs three readings more than parameters.
    pub aicc: Option<f64>,
    /// True if the readings support the curve (always true for the exponential).
    pub identified: bool,
}

impl CurveFit {
    /// Fitted size at an age; an age outside the readings is the caller's extrapolation.
    pub fn size_at(&self, age: f64) -> f64 {
        self.shape.size(&self.parameters, age)
    }
}

/// Ages below which no curve with a final size is offered.
pub const FEWEST_AGES: usize = 7;
/// Largest accepted final size, as a multiple of the largest reading.
pub const LARGEST_MULTIPLE: f64 = 3.0;

/// Fits one shape.
///
/// # Errors
/// Too few readings (parameters and one more), one not above zero, equal ages or sizes, or no optimum.
pub fn fit_curve(readings: &[Reading], shape: Shape) -> Result<CurveFit, StatisticsError> {
    let ages: Vec<f64> = readings.iter().map(|reading| reading.age).collect();
    let sizes: Vec<f64> = readings.iter().map(|reading| reading.size).collect();
    require(&ages, shape.parameters() + 1)?;
    let logs = logs(&sizes, shape.parameters() + 1)?;
    if ages.iter().all(|&age| age == ages[0]) || sizes.iter().all(|&size| size == sizes[0]) {
        return Err(StatisticsError::NoSpread);
    }
    let series = Series {
        shape,
        ages: &ages,
        sizes: &sizes,
        logs: &logs,
    };
    let mut best: Option<(Vec<f64>, f64)> = None;
    for start in series.starts() {
        if let Some((at, rss)) = least_squares(&series, start)
            && best.as_ref().is_none_or(|(_, least)| rss < *least)
        {
            best = Some((at, rss));
        }
    }
    let (at, rss) = best.ok_or(StatisticsError::NotFitted)?;
    Ok(series.report(&at, rss))
}

/// Fits every shape on the log scale; those the readings support first, each part by AICc.
///
/// # Errors
/// As [`fit_curve`] for the exponential.
pub fn fit_all(readings: &[Reading]) -> Result<Vec<CurveFit>, StatisticsError> {
    let mut fits = vec![fit_curve(readings, Shape::Exponential)?];
    let others = Shape::ALL[1..].par_iter();
    let fit = |&shape: &Shape| fit_curve(readings, shape).ok();
    fits.extend(others.filter_map(fit).collect::<Vec<CurveFit>>());
    let key = |fit: &CurveFit| fit.aicc.unwrap_or(f64::INFINITY);
    fits.sort_by(|a, b| {
        b.identified
            .cmp(&a.identified)
            .then(key(a).total_cmp(&key(b)))
    });
    Ok(fits)
}

struct Series<'a> {
    shape: Shape,
    ages: &'a [f64],
    sizes: &'a [f64],
    logs: &'a [f64],
}

impl Series<'_> {
    /// Starting points on the internal scale, one per guess of the final size.
    fn starts(&self) -> Vec<Vec<f64>> {
        if self.shape == Shape::Exponential {
            return vec![straight_line(self.ages, self.logs)];
        }
        let largest = self.sizes.iter().copied().fold(0.0, f64::max);
        let from_final = |multiple: &f64| {
            let straight = |&size: &f64| self.shape.straightened(size / (multiple * largest));
            let line = straight_line(
                self.ages,
                &self.sizes.iter().map(straight).collect::<Vec<f64>>(),
            );
            let span = self.ages.iter().copied().fold(f64::MIN_POSITIVE, f64::max);
            vec![
                libm::log(multiple * largest),
                line[0],
                libm::log((-line[1]).max(1e-3 / span)),
            ]
        };
        [1.02, 1.15, 1.5, 2.5, 5.0, 20.0]
            .iter()
            .map(from_final)
            .collect()
    }

    fn report(&self, at: &[f64], rss: f64) -> CurveFit {
        let parameters = self.outer(at);
        let (n, p) = (self.ages.len(), at.len());
        let variance = rss / (n - p) as f64;
        let inverse = normal_matrix(&self.slopes(at), p)
            .factor()
            .map(|factor| factor.inverse());
        // A standard error of a logarithm times the value is that of the value.
        let scale = |i: usize| {
            if self.shape == Shape::Exponential && i == 1 {
                1.0
            } else {
                parameters[i]
            }
        };
        let error = |i: usize| {
            inverse.as_ref().map_or(f64::INFINITY, |m| {
                scale(i) * libm::sqrt(variance * m.at(i, i))
            })
        };
        let standard_errors: Vec<f64> = (0..p).map(error).collect();
        let largest = self.sizes.iter().copied().fold(0.0, f64::max);
        let held = parameters[0] < LARGEST_MULTIPLE * largest && standard_errors[0] < parameters[0];
        CurveFit {
            shape: self.shape,
            identified: self.shape == Shape::Exponential
                || (distinct(self.ages) >= FEWEST_AGES && held),
            aicc: aicc(n, p, rss),
            parameters,
            standard_errors,
            rss,
        }
    }

    fn outer(&self, at: &[f64]) -> Vec<f64> {
        let slope_at = if self.shape == Shape::Exponential {
            1
        } else {
            usize::MAX
        };
        at.iter()
            .enumerate()
            .map(|(i, &v)| if i == slope_at { v } else { libm::exp(v) })
            .collect()
    }
}

impl Model for Series<'_> {
    fn residuals(&self, at: &[f64]) -> Vec<f64> {
        let parameters = self.outer(at);
        let residual = |i: usize| {
            let size = self.shape.size(&parameters, self.ages[i]);
            if size > 0.0 {
                self.logs[i] - libm::log(size)
            } else {
                f64::INFINITY
            }
        };
        (0..self.ages.len()).map(residual).collect()
    }

    fn slopes(&self, at: &[f64]) -> Vec<Slopes> {
        let parameters = self.outer(at);
        let slope = |&age: &f64| self.shape.slopes(&parameters, age);
        self.ages.iter().map(slope).collect()
    }
}

/// Intercept and slope of a plain straight line.
fn straight_line(x: &[f64], y: &[f64]) -> Vec<f64> {
    let (mx, my) = (super::describe::mean(x), super::describe::mean(y));
    let across: f64 = x.iter().zip(y).map(|(a, b)| (a - mx) * (b - my)).sum();
    let slope = across / super::describe::squares(x);
    vec![my - slope * mx, slope]
}

fn distinct(ages: &[f64]) -> usize {
    let mut sorted = ages.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.dedup();
    sorted.len()
}

/// `n ln(rss/n) + 2K + 2K(K+1)/(n−K−1)` with `K` = parameters and the error variance.
fn aicc(n: usize, parameters: usize, rss: f64) -> Option<f64> {
    let (count, k) = (n as f64, parameters as f64 + 1.0);
    let fit = count * libm::log(rss.max(f64::MIN_POSITIVE) / count);
    (count - k - 1.0 > 0.0).then(|| fit + 2.0 * k + 2.0 * k * (k + 1.0) / (count - k - 1.0))
}
