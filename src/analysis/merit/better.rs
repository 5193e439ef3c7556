//! The chance that one plant is the better parent of two.
//!
//! The difference of two plants, over its own standard error, is taken as Student's t: the parts of the variance are
//! stated, the whole is told by the readings. Several traits are added by their weights, their errors as independent.

use crate::analysis::merit::solved::SolvedTrait;
use crate::lineage::PlantRow;
use crate::planning::merit::Unsolvable;
use crate::statistics::distribution::t_lower;

/// A chance of being the better one below which a plant is clearly worse than another. Our own choice.
pub(crate) const CLEARLY: f64 = 0.05;
/// A difference that rounding alone may leave, in genetic standard deviations.
const ROUNDING: f64 = 1e-12;

/// The chance that one plant is better than another over all traits; ½ for plants predicted equal.
///
/// # Errors
/// As [`Unsolvable`] says.
pub fn chance_better(
    traits: &[SolvedTrait],
    one: PlantRow,
    other: PlantRow,
) -> Result<f64, Unsolvable> {
    let (mut mean, mut variance) = (0.0, 0.0);
    for of in traits {
        let (difference, error) = of.between(one, other)?;
        let weight = of.basis.weight;
        mean += weight * difference;
        variance += weight * weight * error * error;
    }
    if mean.abs() <= ROUNDING {
        return Ok(0.5);
    }
    let freedom = traits.iter().map(SolvedTrait::freedom).min().unwrap_or(0);
    let t = mean / libm::sqrt(variance.max(f64::MIN_POSITIVE));
    Ok(t_lower(t, freedom.max(1) as f64))
}
