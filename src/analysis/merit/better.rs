//! The chance that one plant is the better parent of two.
//!
//! The difference of two plants, over its own standard error, is taken as Student's t: the parts of the variance are
//! stated, the whole is told by the readings. Several traits are added by their weights, their errors as independent.

use crate::analysis::merit::solved::{Single, SolvedTrait};
use crate::lineage::PlantRow;
use crate::planning::merit::Centre;
use crate::statistics::distribution::t_lower;

/// A chance of being the better one below which a plant is clearly worse than another. Our own choice.
pub(crate) const CLEARLY: f64 = 0.05;
/// A difference that rounding alone may leave, in genetic standard deviations.
const ROUNDING: f64 = 1e-12;

/// A plant that others are compared with, in each trait.
pub struct Compared(Vec<Centre>);

impl Compared {
    /// Makes a plant ready.
    pub fn of(traits: &[SolvedTrait], plant: PlantRow) -> Compared {
        Compared(traits.iter().map(|of| of.alone(plant)).collect())
    }

    /// The chance that a plant is better than this one over all traits; ½ for plants predicted equal.
    pub fn chance_better(&self, traits: &[SolvedTrait], plant: PlantRow) -> f64 {
        let of_traits = traits.iter().zip(&self.0);
        let beside = of_traits.map(|(of, other)| (of.basis.weight, of.beside(plant, other)));
        chance(beside, traits)
    }

    /// The same of a plant whose merit in each trait is solved.
    pub(super) fn chance_better_of<'s>(
        &self,
        traits: &[SolvedTrait],
        (plant, known): (PlantRow, impl Iterator<Item = &'s Single>),
    ) -> f64 {
        let of_traits = traits.iter().zip(&self.0).zip(known);
        let beside = of_traits.map(|((of, other), single)| {
            let beside = of.beside_of(plant, &single.predicted, other);
            (of.basis.weight, beside)
        });
        chance(beside, traits)
    }
}

/// The chance of being the better one, from the weight of each trait and the difference in it with its error.
fn chance(beside: impl Iterator<Item = (f64, (f64, f64))>, traits: &[SolvedTrait]) -> f64 {
    let (mut mean, mut variance) = (0.0, 0.0);
    for (weight, (difference, error)) in beside {
        mean += weight * difference;
        variance += weight * weight * error * error;
    }
    if mean.abs() <= ROUNDING {
        return 0.5;
    }
    let freedom = traits.iter().map(SolvedTrait::freedom).min().unwrap_or(0);
    let t = mean / libm::sqrt(variance.max(f64::MIN_POSITIVE));
    t_lower(t, freedom.max(1) as f64)
}
