//! The straight or gently bent line through the logarithms of a plant's sizes.
//!
//! The slope is the plant's relative growth rate over all its readings; a squared term lets the rate change with age
//! when the readings say so. Curves with a final size are in `curves`.

use super::distribution::{f_upper, t_upper_quantile};
use super::error::{StatisticsError, logs, require};
use super::growth::Reading;
use super::interval::{Confidence, Interval};
use super::matrix::{Matrix, dot};
use super::scale::Scale;

/// `ln size = b₀ + b₁·age (+ b₂·age²)` by least squares.
#[derive(Clone, PartialEq, Debug)]
pub struct Trend {
    /// Readings behind it.
    pub n: usize,
    /// b₀, b₁ and, if asked for, b₂.
    pub coefficients: Vec<f64>,
    /// Their standard errors.
    pub standard_errors: Vec<f64>,
    /// Sum of squared residuals on the log scale.
    pub rss: f64,
    /// Share of the spread of the logs that the line takes up, 0 to 1; 0 if there is no spread.
    pub r_squared: f64,
}

impl Trend {
    /// Growth rate at an age: `b₁ + 2 b₂ age`.
    pub fn rate_at(&self, age: f64) -> f64 {
        self.coefficients[1] + self.coefficients.get(2).map_or(0.0, |b2| 2.0 * b2 * age)
    }

    /// Student's limits of a coefficient.
    pub fn interval(&self, coefficient: usize, confidence: Confidence) -> Interval {
        let df = (self.n - self.coefficients.len()) as f64;
        let half = t_upper_quantile(confidence.tail(), df) * self.standard_errors[coefficient];
        Interval::around(self.coefficients[coefficient], half)
    }
}

/// Fits a line (`bent` false) or a parabola (`bent` true) to the logs.
///
/// # Errors
/// Fewer readings than coefficients and one more, ages that do not differ enough, or a size not above zero.
pub fn trend(readings: &[Reading], bent: bool) -> Result<Trend, StatisticsError> {
    let p = if bent { 3 } else { 2 };
    let ages: Vec<f64> = readings.iter().map(|reading| reading.age).collect();
    let sizes: Vec<f64> = readings.iter().map(|reading| reading.size).collect();
    require(&ages, p + 1)?;
    let y = logs(&sizes, p + 1)?;
    let row = |&age: &f64| [1.0, age, age * age][..p].to_vec();
    let design: Vec<Vec<f64>> = ages.iter().map(row).collect();
    least_squares(&design, &y)
}

fn least_squares(design: &[Vec<f64>], y: &[f64]) -> Result<Trend, StatisticsError> {
    let x = Matrix::from_rows(design).ok_or(StatisticsError::TooFew {
        found: 0,
        needed: 1,
    })?;
    let turned = x.transposed();
    let factor = turned
        .product(&x)
        .factor()
        .ok_or(StatisticsError::NoSpread)?;
    let coefficients = factor.solve(&turned.times(y));
    let residual: Vec<f64> = y
        .iter()
        .zip(x.times(&coefficients))
        .map(|(y, fit)| y - fit)
        .collect();
    let (n, p) = (x.rows(), x.columns());
    let rss = dot(&residual, &residual);
    let (variance, inverse) = (rss / (n - p) as f64, factor.inverse());
    let all = super::describe::squares(y);
    Ok(Trend {
        n,
        standard_errors: (0..p)
            .map(|i| libm::sqrt(variance * inverse.at(i, i)))
            .collect(),
        coefficients,
        rss,
        r_squared: if all > 0.0 {
            (1.0 - rss / all).clamp(0.0, 1.0)
        } else {
            0.0
        },
    })
}

/// The slope of the straight line through sizes on their scale: for two readings the growth between them, for more, on
/// the logarithm, that of [`trend`].
///
/// Ages are counted from the first reading, so that the years since the first day of a calendar do not swamp them.
///
/// # Errors
/// Fewer than two readings, ages all equal, a size not on the scale, a value not finite.
pub fn slope(
    readings: impl Iterator<Item = Reading>,
    scale: Scale,
) -> Result<f64, StatisticsError> {
    let (mut n, mut start) = (0, 0.0);
    // Running means and sums of squares and products about them (Welford 1962, from memory).
    let (mut age_mean, mut size_mean, mut squares, mut products) = (0.0, 0.0, 0.0, 0.0);
    for Reading { age, size } in readings {
        if !(age.is_finite() && size.is_finite()) {
            return Err(StatisticsError::NotFinite);
        }
        let value = match scale {
            Scale::Log if size <= 0.0 => return Err(StatisticsError::NotPositive),
            Scale::Log => libm::log(size),
            Scale::Plain => size,
        };
        if n == 0 {
            start = age;
        }
        n += 1;
        let from_mean = age - start - age_mean;
        age_mean += from_mean / f64::from(n);
        size_mean += (value - size_mean) / f64::from(n);
        squares += from_mean * (age - start - age_mean);
        products += from_mean * (value - size_mean);
    }
    match n {
        0 | 1 => Err(StatisticsError::TooFew {
            found: n as usize,
            needed: 2,
        }),
        _ if squares > 0.0 => Ok(products / squares),
        _ => Err(StatisticsError::NoSpread),
    }
}

/// Does the rate change with age? F of the squared term, its probability by chance alone.
///
/// # Errors
/// The fits are not of the same readings, not straight and bent, or the bent one leaves nothing to compare with.
pub fn bend_test(straight: &Trend, bent: &Trend) -> Result<(f64, f64), StatisticsError> {
    if straight.n != bent.n || straight.coefficients.len() + 1 != bent.coefficients.len() {
        return Err(StatisticsError::Unpaired {
            left: straight.n,
            right: bent.n,
        });
    }
    if bent.rss <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    let df = (bent.n - bent.coefficients.len()) as f64;
    let f = ((straight.rss - bent.rss) / (bent.rss / df)).max(0.0);
    Ok((f, f_upper(f, 1.0, df)))
}
