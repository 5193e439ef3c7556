//! What of a spread is seen, and what of a selection is passed on?
//!
//! Variances here are in units of the additive variance inside one species. What is not inherited has then the variance
//! `(1 − h²)/h²`, h² the heritability inside a species, and is taken as alike in every cross.

use super::error::{StatisticsError, require_within};

/// The variance that is seen within a pod of this genetic variance (not below 0), at a heritability inside a species of 0
/// to 1: `V·h² + 1 − h²`, in units of what is seen inside a species.
pub fn seen_variance(genetic: f64, heritability: f64) -> f64 {
    genetic * heritability + 1.0 - heritability
}

/// Heritability within a pod, 0 to 1: the genetic part `V·h²` of [`seen_variance`]; 0 where nothing varies.
pub fn heritability_within(genetic: f64, heritability: f64) -> f64 {
    match genetic * heritability {
        0.0 => 0.0,
        inherited => inherited / seen_variance(genetic, heritability),
    }
}

/// The ratio of the standard deviations that are seen in two crosses, from their genetic variances within a pod (not
/// below 0): `√((V₁ + e)/(V₂ + e))`, e = (1 − h²)/h². At heritability 1 it is the ratio of the genetic ones.
///
/// # Errors
/// A heritability not above 0 or above 1; a variance below 0; no variance at all in the second cross.
pub fn seen_ratio(first: f64, second: f64, heritability: f64) -> Result<f64, StatisticsError> {
    require_within(heritability, 1e-9, 1.0)?;
    require_within(first, 0.0, f64::MAX)?;
    require_within(second, 0.0, f64::MAX)?;
    let [first, second] = [first, second].map(|genetic| seen_variance(genetic, heritability));
    if second <= 0.0 {
        return Err(StatisticsError::NoSpread);
    }
    Ok(libm::sqrt(first / second))
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
