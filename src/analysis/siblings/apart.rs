//! In what siblings differ most, and in what their pods do.

use super::groups::{CLEARLY, Measure};
use super::summary::TraitSummary;
use crate::statistics::spread_scale::most_variable;

/// The measures that vary most among all siblings, the largest coefficient of variation first; none with fewer than two
/// measures, and none where all may vary as much.
pub fn most_apart(traits: &[TraitSummary]) -> Vec<&TraitSummary> {
    let spread = |of: &Measure| Some((of.cv?, of.cv_between?));
    let spread = |of: &TraitSummary| of.groups[0].measure.as_ref().and_then(spread);
    let known = traits.iter().filter_map(|of| Some((of, spread(of)?)));
    let (measures, coefficients): (Vec<&TraitSummary>, Vec<_>) = known.unzip();
    let most = most_variable(&coefficients);
    if measures.len() < 2 || most.len() == measures.len() {
        return Vec::new();
    }
    most.into_iter().map(|at| measures[at]).collect()
}

/// Traits by which pods were compared.
#[derive(Clone, Debug, Default)]
pub struct PodsCompared<'s> {
    /// Those in which they clearly differ.
    pub apart: Vec<&'s TraitSummary>,
    /// Those in which they do not.
    pub alike: Vec<&'s TraitSummary>,
}

/// In which traits the pods differ.
pub fn pods_compared(traits: &[TraitSummary]) -> PodsCompared<'_> {
    let p = |of: &TraitSummary| {
        let test = of.pods.as_ref()?;
        test.p_adjusted.or(test.p)
    };
    let tested = traits.iter().filter(|of| p(of).is_some());
    let (apart, alike) = tested.partition(|of| p(of).is_some_and(|p| p < CLEARLY));
    PodsCompared { apart, alike }
}
