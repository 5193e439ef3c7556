//! What figures of kinship assume, lines of descent and figures that may be one of several, in words.

use crate::analysis::kinship::{
    Assumption, DescentPath, Drawn, DrawnOf, DrawnParents, Outcome, ParentPair, PathStep,
};
use crate::report::as_text::serialize_as_text;
use crate::report::caution::{Weighed, Weight};
use crate::wording::{chance, counted, joined, joined_if_any, led_by};
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(DescentPath, DrawnParents);

/// Values named one by one; of more, the least and the greatest.
const NAMED: usize = 4;

impl Display for ParentPair {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let [seed, pollen] =
            [&self.seed, &self.pollen].map(|of| of.as_deref().unwrap_or("unknown"));
        write!(out, "{seed} × {pollen}")
    }
}

impl Display for Drawn {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let mates = match self.with_pod_mates {
            true => " and its pod-mates",
            false => "",
        };
        write!(out, "{}{mates} of {}", self.plant, self.of)
    }
}

impl Display for DrawnOf {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            DrawnOf::Parents(pair) => pair.fmt(out),
            DrawnOf::CrossWith(cross, pair) => write!(out, "{cross} ({pair})"),
            DrawnOf::Cross(cross) => out.write_str(cross),
        }
    }
}

impl Display for DrawnParents {
    fn fmt(&self, out: &mut Formatter) -> Result {
        out.write_str(&joined(&self.0, "; "))
    }
}

impl Display for PathStep {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            PathStep::Plant(plant) => out.write_str(plant),
            PathStep::Meeting(plant) => write!(out, "[{plant}]"),
            PathStep::UnknownParent => out.write_str("[an unknown parent of both]"),
            PathStep::Background => out.write_str("[background of the species]"),
            PathStep::Batch { first, other } => {
                let which = if *other { "the other " } else { "" };
                write!(out, "[{which}unseen parent of the batch of {first}]")
            }
        }
    }
}

impl Display for DescentPath {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let taking = led_by(", if of ", joined_if_any(&self.taking, " and "));
        write!(out, "{}{taking}", joined(&self.steps, " – "))
    }
}

impl Weighed for Assumption {
    fn weight(&self) -> Weight {
        match self {
            Assumption::Uncertain { .. } => Weight::Doubt,
            Assumption::Unrelated { .. } | Assumption::Background(_) => Weight::General,
        }
    }
}

impl Display for Assumption {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match *self {
            Assumption::Unrelated {
                founders,
                unknown_parents,
                in_batches,
            } => {
                write!(
                    out,
                    "kinship and inbreeding are a minimum if the recorded parents are right: {}",
                    counted(founders, "founder", "founders")
                )?;
                if unknown_parents > 0 {
                    let parents = counted(unknown_parents, "unknown parent", "unknown parents");
                    write!(out, " and {parents}")?;
                }
                out.write_str(" assumed unrelated")?;
                match in_batches {
                    0 => Ok(()),
                    n => write!(
                        out,
                        ", but for {n} of a shared batch, counted as full siblings"
                    ),
                }
            }
            Assumption::Uncertain {
                crosses,
                plants,
                equal_chances,
            } => {
                let have = match (crosses, plants) {
                    (0, plants) => counted(plants, "plant has", "plants each have"),
                    (crosses, 0) => counted(crosses, "cross has", "crosses have"),
                    (crosses, plants) => {
                        let crosses = counted(crosses, "cross", "crosses");
                        let plants = counted(plants, "plant", "plants");
                        format!("{crosses} and {plants} each have")
                    }
                };
                let chances = match equal_chances {
                    true => ", their chances taken as equal where not stated",
                    false => "",
                };
                write!(
                    out,
                    "{have} several possible pairs of parents{chances}; figures called expected are means over them"
                )
            }
            Assumption::Background(species) => write!(
                out,
                "a background kinship is stated for {species} of these species"
            ),
        }
    }
}

/// `0 (2 in 3) or 0.25 (1 in 3)`; of more than four values `0 to 0.25`.
pub(crate) fn outcome_words(outcomes: &[Outcome]) -> String {
    let one = |of: &Outcome| format!("{} ({})", decimal(of.value), odds(of.chance));
    match outcomes {
        [] => String::new(),
        [only] => decimal(only.value),
        [first, .., last] if outcomes.len() > NAMED => {
            format!("{} to {}", decimal(first.value), decimal(last.value))
        }
        [some @ .., last] => {
            let some = some.iter().map(one);
            format!("{} or {}", joined(some, ", "), one(last))
        }
    }
}

/// A figure that may be one of several as these words say; called expected where the ways are too many to go through.
pub(crate) fn may_be_words(expected: f64, outcomes: &[Outcome], ways_known: bool) -> String {
    match (outcomes, ways_known) {
        ([], true) => probability(expected),
        ([], false) => format!("expected {}", decimal(expected)),
        (several, _) => outcome_words(several),
    }
}

/// Four decimals; two figures of what would show as nothing, since even the least kinship is not none.
pub(crate) fn four_decimals(value: f64) -> String {
    format!("{value:.*}", usize::from(decimals_that_show(value)))
}

/// Four, or as many decimals as show two figures of a value that four would show as nothing.
pub(crate) fn decimals_that_show(value: f64) -> u8 {
    if value <= 0.0 || value >= 0.00005 {
        return 4;
    }
    let shows_two = |decimals: &u8| {
        let shown = format!("{value:.*}", usize::from(*decimals));
        shown.trim_start_matches(['0', '.']).len() >= 2
    };
    (5..=40).find(shows_two).unwrap_or(4)
}

/// At most four decimals, or as many as show it is not none, without trailing zeros.
pub(crate) fn decimal(value: f64) -> String {
    let shown = four_decimals(value);
    shown.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// `2 in 3`; a chance that is no such plain one in percent.
pub(crate) fn odds(of: f64) -> String {
    for all in 2..=24u32 {
        let part = of * f64::from(all);
        let whole = (part + 0.5).floor();
        if (part - whole).abs() < 1e-9 && whole > 0.0 && whole < f64::from(all) {
            return format!("{whole} in {all}");
        }
    }
    chance(of)
}

/// A probability for people: four decimals, and the fraction when it is a plain one.
pub(crate) fn probability(value: f64) -> String {
    for bits in 0..=6 {
        let whole = f64::from(1u32 << bits);
        let above = value * whole;
        if above.fract() == 0.0 {
            return match bits {
                0 => decimal(value),
                _ => format!("{} ({above}/{whole})", decimal(value)),
            };
        }
    }
    four_decimals(value)
}
