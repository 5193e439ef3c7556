//! What is said of growth in words: circumstances, shapes, units, and why there is no size or no answer.

use crate::analysis::growth::{Averaged, GrowthError, NoSize};
use crate::observation::asked_columns::unit_word;
use crate::record::LengthUnit;
use crate::report::as_text::{in_words, serialize_as_text};
use crate::statistics::curves::Shape;
use crate::wording::age;
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(Averaged, NoSize, Shape, LengthUnit);

in_words!(Averaged {
    Averaged::Plant => "plant",
    Averaged::Pod => "pod",
});

in_words!(Shape {
    Shape::Exponential => "exponential",
    Shape::Monomolecular => "monomolecular",
    Shape::Logistic => "logistic",
    Shape::Gompertz => "Gompertz",
});

in_words!(LengthUnit {
    unit => unit_word(*unit),
});

/// Of plants whose readings have no age because it is not known which sowing they came from.
pub(super) const OF_SEVERAL: &str = "may be of several pods (mixed up)";

impl Display for NoSize {
    fn fmt(&self, f: &mut Formatter) -> Result {
        f.write_str(match self {
            NoSize::OfSeveralPods => OF_SEVERAL,
            NoSize::Undated(of) => return write!(f, "no dated {of}"),
            NoSize::NoReading => "no comparable reading",
            NoSize::ReadBefore => "last read before",
            NoSize::ReadAfter => "first read after",
            NoSize::VagueDates => "dates too vague",
        })
    }
}

impl Display for GrowthError {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            GrowthError::AgeNotAboveZero(at) => {
                write!(f, "--at needs an age in months above zero; found {at}")
            }
            GrowthError::UnknownTrait { name, declared } => write!(
                f,
                "no trait is called `{name}`\ndeclared are {}",
                declared.join(", ")
            ),
            GrowthError::NoSpan(declared) => write!(
                f,
                "no trait is called span\nname one with --trait; declared are {}",
                declared.join(", ")
            ),
            GrowthError::NotMeasured(code) => write!(
                f,
                "`{code}` is not measured but judged, so it does not grow\nname a length, a count or a number with --trait"
            ),
            GrowthError::NothingGrows(id) => write!(
                f,
                "`{id}` is neither a plant, a cross, a pod, a sowing nor a species"
            ),
            GrowthError::TooDeep(why) => write!(f, "{why}"),
            GrowthError::NamedTwice(id) => write!(f, "{id} is named twice; name it once"),
            GrowthError::SharedPlant { of, plant } => write!(
                f,
                "{} and {} share plants ({plant} among them), so they cannot be set against each other\nname groups that share none, such as two pods",
                of.0, of.1
            ),
            GrowthError::SharedSowing { of, sowing } => write!(
                f,
                "{} and {} share the seedlings of {sowing}, so they cannot be set against each other\nname groups that share none, such as two sowings",
                of.0, of.1
            ),
            GrowthError::NoSizeAt {
                id,
                at,
                is_vague,
                read,
            } => {
                let why = match is_vague {
                    true => "the days of sowing and reading are too vague for it",
                    false => {
                        "podbook does not extrapolate before the first or after the last reading"
                    }
                };
                let at = age((*at, *at));
                writeln!(f, "no plant of {id} has a size at {at}; {why}")?;
                match read {
                    Some([first, last]) if first == last => {
                        write!(f, "{id} was read at {}", age(*first))
                    }
                    Some([first, last]) if first.0 == first.1 && last.0 == last.1 => {
                        write!(f, "{id} was read at {}", age((first.0, last.0)))
                    }
                    Some([first, last]) => write!(
                        f,
                        "{id} was first read at {} and last at {}",
                        age(*first),
                        age(*last)
                    ),
                    None => write!(f, "{id} has no reading at a known age"),
                }
            }
        }
    }
}
