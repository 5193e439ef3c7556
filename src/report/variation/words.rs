//! What is said of crosses that vary in words: the scale, cautions, and why there is no figure.

use crate::analysis::variation::{Caution, NotCompared, NotExpected, VariationError};
use crate::report::as_text::{in_words, serialize_as_text};
use crate::report::caution::{Weighed, Weight, not_counted};
use crate::report::unlike::unlike_words;
use crate::statistics::spread_scale::SpreadScale;
use crate::wording::{joined, listed};
use std::fmt::{Display, Formatter, Result};

serialize_as_text!(SpreadScale, NotCompared, NotExpected, Caution);

in_words!(SpreadScale {
    SpreadScale::Proportion => "proportion",
    SpreadScale::Root => "root",
    SpreadScale::Plain => "plain",
});

impl Display for NotCompared {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            NotCompared::NoSharedAge => f.write_str("no age at which all were read"),
            NotCompared::NoFigure(why) => write!(f, "{why}"),
        }
    }
}

impl Display for NotExpected {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            NotExpected::OneOfSeveral => f.write_str("one of several parents"),
            NotExpected::ParentUnknown => f.write_str("a parent is not known"),
            NotExpected::DescentUnknown => f.write_str("a parent's descent is not known in full"),
            NotExpected::TooComplex(why) => write!(f, "{why}"),
        }
    }
}

impl Weighed for Caution {
    fn weight(&self) -> Weight {
        match self {
            Caution::Doubt(_) | Caution::Names(_) | Caution::ParentsAsRight(_) => Weight::Doubt,
            Caution::Reading(_) | Caution::NoSharedAge(_) | Caution::Unlike { .. } => {
                Weight::Answer
            }
            Caution::MixedUp { .. } | Caution::LeftOut { .. } | Caution::NotCompared { .. } => {
                Weight::LeftOut
            }
            Caution::CountOnRoot(_) | Caution::PlainNumber(_) | Caution::OneCrossEach => {
                Weight::General
            }
        }
    }
}

impl Display for Caution {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            Caution::Reading(words) | Caution::Doubt(words) => f.write_str(words),
            Caution::ParentsAsRight(words) => write!(f, "what ancestry predicts holds {words}"),
            Caution::Names(taken) => f.write_str(&taken.behind_a_spread()),
            Caution::NoSharedAge(read) => {
                let told = read.iter().map(|(id, at)| format!("{id}: {at}"));
                write!(
                    f,
                    "nothing is set side by side, since older plants differ more than younger ones whatever their parents; {}",
                    joined(told, "; ")
                )
            }
            Caution::MixedUp { id, n } => write!(f, "{id}: {}", not_counted(*n)),
            Caution::LeftOut {
                id,
                here,
                elsewhere,
            } => {
                let words = here.words_beside(elsewhere).unwrap_or_default();
                write!(f, "{id}: left out {words}")
            }
            Caution::NotCompared { id, n, why } => write!(
                f,
                "{id}: {} read {}, so not among these figures",
                match n {
                    1 => "1 more plant was".to_owned(),
                    n => format!("{n} more plants were"),
                },
                why.words()
            ),
            Caution::Unlike { of, circumstances } => {
                f.write_str(&unlike_words(&listed(of), circumstances.iter()).unwrap_or_default())
            }
            Caution::CountOnRoot(name) => write!(
                f,
                "{name} is a count: spread is compared on √(count + 3/8), where zeros count and a larger mean alone does not make \
                 a larger spread"
            ),
            Caution::PlainNumber(name) => write!(
                f,
                "{name} is a plain number: standard deviations are compared as they stand, so a cross with larger values may vary \
                 more for that alone"
            ),
            Caution::OneCrossEach => f.write_str(
                "each side is a single cross, so this compares these crosses, not kinds of cross; for that each pod would count once",
            ),
        }
    }
}

impl Display for VariationError {
    fn fmt(&self, f: &mut Formatter) -> Result {
        match self {
            VariationError::Scope(words) => f.write_str(words),
            VariationError::Trait(why) => write!(f, "{why}"),
            VariationError::NotAMeasure(name) => write!(
                f,
                "{name} is not a measure; spread is compared for measures such as leaf span\nfor kinds and steps see `podbook siblings`"
            ),
        }
    }
}
