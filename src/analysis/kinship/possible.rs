//! A figure that may be one of several, with the chance of each, as data.

use crate::kinship::Possible;
use serde::Serialize;

/// A value with its chance.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Outcome {
    /// The value, at least: founders count as unrelated.
    pub value: f64,
    /// Its chance, 0 to 1.
    pub chance: f64,
}

/// The values a figure may have, ascending; none when it has one only.
pub fn outcomes(possible: &Possible) -> Vec<Outcome> {
    let outcomes = possible.outcomes();
    let several = outcomes.len() > 1;
    let outcome = |(value, chance)| Outcome { value, chance };
    let outcomes = outcomes.into_iter().filter(|_| several);
    outcomes.map(outcome).collect()
}
