//! What speaks against a pollination and what to keep in mind before it, in words.

use crate::analysis::expected_spread::LEAST_AND_MOST;
use crate::analysis::pair::{Caution, Degree, End, FlowersOf, Impossible, OtherWay, PairError};
use crate::analysis::set_aside::SetAside;
use crate::report::as_text::{in_words, serialize_as_text};
use crate::report::caution::{Weighed, Weight};
use crate::wording::joined;
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(Caution, FlowersOf, Impossible, OtherWay);

/// `V3 was culled 2023-05 (weak)`, `V3 died 2023-05`.
impl Display for End {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match (&self.fate, self.died) {
            (Some(fate), true) => write!(out, "{} {fate}", self.plant),
            (Some(fate), false) => write!(out, "{} was {fate}", self.plant),
            (None, _) => write!(out, "{} has no piece left here", self.plant),
        }
    }
}

impl Display for Impossible {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            Impossible::OnePlant(plant) => {
                write!(out, "both are {plant}: pieces of one plant have one sex")
            }
            Impossible::Sex(plant, sex) => write!(out, "{plant} was seen {sex}"),
            Impossible::NeverHere(plant) => write!(out, "{plant} never stood here"),
            Impossible::Gone { end, no_pollen } => {
                end.fmt(out)?;
                match no_pollen {
                    true => out.write_str(", and no pollen of it is in hand"),
                    false => Ok(()),
                }
            }
        }
    }
}

impl Display for OtherWay {
    fn fmt(&self, out: &mut Formatter) -> Result {
        write!(out, "♀ {} × ♂ {}", self.seed, self.pollen)
    }
}

impl Display for FlowersOf {
    fn fmt(&self, out: &mut Formatter) -> Result {
        let state = match (self.opened, self.may_be_over) {
            (true, true) => "may be over; open",
            (true, false) => "open",
            (false, _) => "expected",
        };
        let window = self.window;
        write!(
            out,
            "{}: {state} from {}, last {}",
            self.plant, window.opens, window.closes
        )
    }
}

in_words!(Degree {
    Degree::Some => "some",
    Degree::Close => "close",
    Degree::VeryClose => "very close",
});

impl Weighed for Caution {
    fn weight(&self) -> Weight {
        match self {
            Caution::Name(_) | Caution::SpreadByNames(_) | Caution::MixedUp(_) => Weight::Doubt,
            Caution::Kinship(assumed) => {
                let weights = assumed.iter().map(Weighed::weight);
                weights.min().unwrap_or(Weight::General)
            }
            Caution::Elsewhere(_) | Caution::OnlyPollenLeft(_) | Caution::Inbred { .. } => {
                Weight::Answer
            }
            Caution::SetAside(_) => Weight::LeftOut,
            Caution::Spread | Caution::Midparent(_) | Caution::Border => Weight::General,
        }
    }
}

impl Display for Caution {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            Caution::Name(note) => out.write_str(note),
            Caution::Elsewhere(end) => write!(out, "{end}: it stands elsewhere"),
            Caution::OnlyPollenLeft(end) => write!(out, "{end}: only pollen in hand is left of it"),
            Caution::Kinship(assumed) => out.write_str(&joined(assumed, "; ")),
            Caution::Inbred { degree, perhaps } => {
                let perhaps = if *perhaps { "perhaps " } else { "" };
                write!(
                    out,
                    "{perhaps}{degree} inbreeding; its cost is not known for the genus, so this is a caution, not a forecast"
                )
            }
            Caution::Spread => write!(
                out,
                "species are assumed to differ by S = {:.0} to {:.0} V: so much an F2 between two of them adds to the variance V inside a species; both sexes are assumed equally likely; a trait seen in both parents only raises the odds",
                LEAST_AND_MOST[0],
                LEAST_AND_MOST[1]
            ),
            Caution::SpreadByNames(taken) => out.write_str(&taken.behind_a_spread()),
            Caution::MixedUp(doubt) => out.write_str(doubt),
            Caution::SetAside(aside) => {
                let each = |(name, aside): &(String, SetAside)| {
                    format!("{name}: {}", aside.words().unwrap_or_default())
                };
                let each = aside.iter().map(each);
                write!(
                    out,
                    "spread of {}; it is scaled by what the parents' ancestry predicts, so it takes certain parents",
                    joined(each, "; ")
                )
            }
            Caution::Midparent(heritability) => write!(
                out,
                "the midparent is the mean of the two as read, at one age except for steps of a scale; it is not a forecast: seedlings fall back towards the overall mean by what is not inherited; merit allows for that and uses all relatives; both tables assume a heritability of {heritability} (--heritability)"
            ),
            Caution::Border => out.write_str(
                "before seed, pollen or plants cross a border or are sold: ask your CITES management authority and your plant-health service; podbook does not check this",
            ),
        }
    }
}

impl Display for PairError {
    fn fmt(&self, out: &mut Formatter) -> Result {
        match self {
            PairError::Shares(error) => error.fmt(out),
            PairError::Pedigree(error) => error.fmt(out),
            PairError::Singular(error) => error.fmt(out),
        }
    }
}
