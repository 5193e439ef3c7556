//! A figure that may be one of several, with the chance of each, as data and in words.

use crate::analysis::kinship::rests_on::probability;
use crate::kinship::Possible;
use crate::wording::chance;
use serde::Serialize;

/// Values named one by one; of more, the least and the greatest.
const NAMED: usize = 4;

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

/// `0 (2 in 3) or 0.25 (1 in 3)`; of more than four values `0 to 0.25`.
pub fn outcome_words(outcomes: &[Outcome]) -> String {
    let one = |of: &Outcome| format!("{} ({})", decimal(of.value), odds(of.chance));
    match outcomes {
        [] => String::new(),
        [only] => decimal(only.value),
        [first, .., last] if outcomes.len() > NAMED => {
            format!("{} to {}", decimal(first.value), decimal(last.value))
        }
        [some @ .., last] => {
            let some: Vec<String> = some.iter().map(one).collect();
            format!("{} or {}", some.join(", "), one(last))
        }
    }
}

/// A figure that may be one of several as these words say; called expected where the ways are too many to go through.
pub fn may_be_words(expected: f64, outcomes: &[Outcome], ways_known: bool) -> String {
    match (outcomes, ways_known) {
        ([], true) => probability(expected),
        ([], false) => format!("expected {}", decimal(expected)),
        (several, _) => outcome_words(several),
    }
}

/// At most four decimals, none of them a trailing 0.
pub fn decimal(value: f64) -> String {
    let shown = format!("{value:.4}");
    shown.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// `2 in 3`; a chance that is no such plain one in percent.
pub fn odds(of: f64) -> String {
    for all in 2..=24u32 {
        let part = of * f64::from(all);
        let whole = (part + 0.5).floor();
        if (part - whole).abs() < 1e-9 && whole > 0.0 && whole < f64::from(all) {
            return format!("{whole} in {all}");
        }
    }
    chance(of)
}
