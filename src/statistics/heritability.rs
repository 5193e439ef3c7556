//! What of a spread is seen, and what of a selection is passed on?
//!
//! Variances here are in units of the additive variance inside one species. What is not inherited has then the variance
//! `(1 − h²)/h²`, h² the heritability inside a species, and is taken as alike in every cross.

use super::error::{StatisticsError, require_within};

/// The variance that is not inherited, in units of the additive variance inside a species.
///
/// # Errors
/// A heritability not above 0 or above 1.
pub fn not_inherited(heritability: f64) -> Result<f64, StatisticsError> {
    require_within(heritability, 1e-9, 1.0)?;
    Ok((1.0 - heritability) / heritability)
}

/// The ratio of the standard deviations that are seen in two crosses, from their genetic variances within a pod (not
/// below 0): `√((V₁ + e)/(V₂ + e))`. At heritability 1 it is the ratio of the genetic ones.
///
/// # Errors
/// As [`not_inherited`]; a variance below 0; no variance at all in the second cross.
pub fn seen_ratio(first: f64, second: f64, heritability: f64) -> Result<f64, StatisticsError> {
    let rest = not_inherited(heritability)?;
    require_within(first, 0.0, f64::MAX)?;
    require_within(second, 0.0, f64::MAX)?;
    if second + rest <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    Ok(libm::sqrt((first + rest) / (second + rest)))
}

/// What the seedlings of two selected siblings are expected to stand above seedlings of unselected ones: heritability
/// times selection differential (the breeder's equation, Lush 1937, from memory), in the unit of the differential; half of
/// it where only one parent is of those selected.
///
/// # Errors
/// A heritability not between 0 and 1.
pub fn response(differential: f64, heritability: f64) -> Result<f64, StatisticsError> {
    require_within(heritability, 0.0, 1.0)?;
    Ok(heritability * differential)
}
