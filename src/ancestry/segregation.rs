//! How much siblings of a pod are expected to differ in a trait, from the pedigree alone.
//!
//! Each parent adds its own part, so a parent's figure serves all its pods. What drives the spread is how often the
//! parent's two copies come from different species: a primary hybrid of two species is as even as either, its own
//! offspring spread. After Lo, Fernando & Grossman (1993); unlinked additive genes.

use super::copies::TwoCopies;
use super::part::Part;

/// What is assumed of a trait.
pub struct TraitVariance<'a> {
    /// Additive variance V inside a species (or the unknown part), in squared units of the trait, at least 0.
    pub within: &'a dyn Fn(Part) -> f64,
    /// Variance S that an F2 between two species shows beyond that, in squared units, at least 0, symmetric.
    pub between: &'a dyn Fn(Part, Part) -> f64,
}

/// The part of the variance among pod-mates that comes from one parent:
/// Σ h (S/2 + (V_a + V_b)/8) over pairs of species + Σ ¼ V (J − I) over species, where h is the chance of one copy
/// from each, J of both copies from one species, and I of those being identical by descent.
pub fn variance_from_parent(parent: &TwoCopies, assumed: &TraitVariance<'_>) -> f64 {
    let mixed = parent.differing.iter().map(|&([one, other], chance)| {
        let within = (assumed.within)(one) + (assumed.within)(other);
        chance * (0.5 * (assumed.between)(one, other) + within / 8.0)
    });
    let same = parent
        .same
        .iter()
        .map(|&(part, same)| 0.25 * (assumed.within)(part) * (same.both - same.identical));
    mixed.sum::<f64>() + same.sum::<f64>()
}
