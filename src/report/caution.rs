//! How much a caution may change a decision: the one rule by which every answer ranks its cautions.

use crate::wording::counted;
use serde::{Serialize, Serializer};
use std::fmt::Display;

/// How much a caution may change a decision, the weightiest first.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Weight {
    /// A name, a parent or a sex behind the answer's own plants is in doubt, or the answer keeps not every limit.
    Doubt,
    /// Something else particular to this answer: readings far off, groups not grown alike, something to do now.
    Answer,
    /// What was left out.
    LeftOut,
    /// True of any answer of the kind.
    General,
}

/// A caution that knows its weight.
pub trait Weighed: Display {
    /// Its weight.
    fn weight(&self) -> Weight;

    /// Heading of the one table it is about; `None` where it is about the whole answer. A screen without that table leaves
    /// it to `--full`.
    fn table(&self) -> Option<&'static str> {
        None
    }
}

/// A caution as a person reads it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RankedCaution {
    /// Its weight.
    pub weight: Weight,
    /// In full.
    pub text: String,
    /// Heading of the one table it is about, if it is.
    pub table: Option<&'static str>,
}

impl RankedCaution {
    /// A caution of some weight.
    pub fn new(weight: Weight, text: impl Into<String>) -> RankedCaution {
        RankedCaution {
            weight,
            text: text.into(),
            table: None,
        }
    }

    /// Doubts of names and parents, as `naming` words them.
    pub fn doubts(doubts: Vec<String>) -> impl Iterator<Item = RankedCaution> {
        doubts
            .into_iter()
            .map(|doubt| RankedCaution::new(Weight::Doubt, doubt))
    }
}

impl Serialize for RankedCaution {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(&self.text)
    }
}

/// What is said where seedlings that were mixed up are in no figure.
pub fn not_counted(seedlings: usize) -> String {
    format!(
        "{} may come from another sowing, pod or cross (mixed up): not counted here",
        counted(seedlings, "numbered seedling", "numbered seedlings")
    )
}
