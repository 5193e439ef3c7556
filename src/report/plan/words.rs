//! Parts of a plan in words: why there is none, when flowers meet, what a limit is, what another plan has instead.

use crate::analysis::plan::{FrontierLabel, Idle, Instead, NamedLimit, PodsChange, Stage, bounded};
use crate::planning::windows::Meeting;
use crate::report::as_text::{in_words, serialize_as_text};
use crate::wording::{FIRST_PLANT, counted, joined};
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(FrontierLabel, Idle, Instead, Meeting, NamedLimit);

impl Display for Idle {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let why = match *self {
            Idle::NoPlant => "no plant is on record yet",
            Idle::NoneFemale => "no plant here is on record as female",
            Idle::NoFemale => "no plant here that is on record as female is in flower",
            Idle::NoneMale => "there is no pollen in hand, and no plant here is on record as male",
            Idle::NoPollen => {
                "there is no pollen in hand, and no plant here that is on record as male is in flower"
            }
            Idle::NothingMeets { .. } => "no female flowers and pollen meet in time",
            Idle::RuledOut => {
                "every pair that could meet is above the cap on inbreeding or ruled out by the goals"
            }
            Idle::TooNear => {
                "every pair that could meet is above the cap on kinship with what is kept"
            }
            Idle::SpikesFull => "every spike that is open bears the pods it may already",
            Idle::TooFewPots {
                needed,
                pots,
                taken,
            } => {
                let takes = counted(needed as usize, "pot", "pots");
                let are = if pots == 1 { "is" } else { "are" };
                write!(out, "a pod takes {takes} and there {are} {pots}")?;
                return match taken {
                    0 => Ok(()),
                    _ => write!(out, ", of which what is pollinated already takes {taken}"),
                };
            }
            Idle::WorthNothing => "no pod that the limits allow is worth anything",
        };
        out.write_str(why)
    }
}

impl Idle {
    /// The command that would plan something; pages, which have no command line, leave it out.
    pub(super) fn next(&self) -> Option<String> {
        match self {
            Idle::NoPlant => Some(FIRST_PLANT.to_owned()),
            Idle::NoneFemale => Some(sex_of_flowers("female")),
            Idle::NoneMale => Some(sex_of_flowers("male")),
            Idle::NoFemale
            | Idle::NoPollen
            | Idle::NothingMeets { any_time: false } => Some(
                "podbook plan --any-time (takes every plant whose sex was seen or guessed as in flower)"
                    .to_owned(),
            ),
            Idle::TooFewPots { needed, taken, .. } => Some(format!(
                "podbook plan --pots {}", needed.saturating_add(*taken)
            )),
            _ => None,
        }
    }
}

/// The command that records the sex of open flowers.
fn sex_of_flowers(sex: &str) -> String {
    format!("podbook flower CODE --sex {sex} (once its flowers are open and show it)")
}

impl Display for Meeting {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let (first, last) = match *self {
            Meeting::Never => return "never".fmt(out),
            Meeting::Perhaps(first, last) => {
                "perhaps ".fmt(out)?;
                (first, last)
            }
            Meeting::Surely(first, last) => (first, last),
        };
        match (bounded(first), bounded(last)) {
            (None, None) => "whenever both flower".fmt(out),
            (None, Some(last)) => write!(out, "until {last}"),
            (Some(first), None) => write!(out, "from {first}"),
            (Some(first), Some(last)) => write!(out, "{first} to {last}"),
        }
    }
}

impl Display for NamedLimit {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            NamedLimit::Pots => "pots: room for one more pod".fmt(out),
            NamedLimit::MostPods => "pods in all: one more".fmt(out),
            NamedLimit::FewestPods => "fewest pods: none needed".fmt(out),
            NamedLimit::SeedParent(plant) => write!(out, "pods on {plant}: one more"),
            NamedLimit::Donor(plant) => write!(out, "pods from {plant}: one more"),
            NamedLimit::Envelope(lot) => write!(out, "pods from envelope {lot}: one more"),
            NamedLimit::AsShed(plant) => write!(out, "pods from {plant} as it sheds: one more"),
            NamedLimit::Inbreeding => "cap on inbreeding: none".fmt(out),
            NamedLimit::MeanKinship => "cap on kinship with what is kept: none".fmt(out),
            NamedLimit::Must(pair) => {
                write!(out, "{} must be made: need not", pair.join(" × "))
            }
            NamedLimit::Forbidden(pair) => {
                write!(out, "{} must not be made: may", pair.join(" × "))
            }
            NamedLimit::LineThroughSeed(species) => {
                write!(out, "line of {species} through a seed parent: need not")
            }
            NamedLimit::LineThroughPollen(species) => {
                write!(out, "line of {species} through a pollen parent: need not")
            }
        }
    }
}

impl Display for PodsChange {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let sign = if self.more > 0 { '+' } else { '−' };
        write!(out, "{sign}{} {}", self.more.abs(), self.pair.join(" × "))?;
        match self.more > 0 && self.may_not_meet {
            true => out.write_str(" (perhaps)"),
            false => Ok(()),
        }
    }
}

impl Display for Instead {
    fn fmt(&self, out: &mut Formatter) -> Result {
        out.write_str(&joined(&self.0, ", "))
    }
}

in_words!(FrontierLabel {
    FrontierLabel::ThePlan => "the plan",
    FrontierLabel::AsGood => "as good",
    FrontierLabel::None => "",
});

in_words!(Stage {
    Stage::BestPlan => "the best plan",
    Stage::Limits => "what the limits cost",
    Stage::Frontier => "gain against kinship",
});
