//! The straight line through a plant's sizes: on the logarithm its slope is the relative growth rate over all readings.
//!
//! Curves with a final size are in `curves`.

use super::error::StatisticsError;
use super::growth::Reading;
use super::scale::Scale;

/// The least-squares slope of the straight line through sizes on their scale; for two readings the growth between them.
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
