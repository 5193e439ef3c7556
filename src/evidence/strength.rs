//! How strongly something about descent is known, the strongest first.

use crate::record::Confidence;

/// A step of the ladder; a greater one is weaker.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Strength {
    /// Own records of pollination, pod and tag.
    Witnessed,
    /// Read from a tag.
    OnTag,
    /// Another grower's own records, handed over.
    Told,
    /// Somebody's word, or a label only.
    Claimed,
    /// Recorded, but stray pollen was seen beside it.
    Probable,
    /// Pollen was mixed on purpose: the father is one of those in the mixture, seed by seed.
    Mixture,
    /// One of several possibilities.
    OneOfSeveral,
    /// Not known, or how it is known is not recorded.
    Unknown,
}

impl Strength {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Strength::Witnessed => "witnessed",
            Strength::OnTag => "on the tag",
            Strength::Told => "told by another grower",
            Strength::Claimed => "claimed",
            Strength::Probable => "probable",
            Strength::Mixture => "mixed pollen",
            Strength::OneOfSeveral => "one of several",
            Strength::Unknown => "unknown",
        }
    }

    /// For machines.
    pub fn code(self) -> &'static str {
        match self {
            Strength::Witnessed => "witnessed",
            Strength::OnTag => "on_tag",
            Strength::Told => "told",
            Strength::Claimed => "claimed",
            Strength::Probable => "probable",
            Strength::Mixture => "mixture",
            Strength::OneOfSeveral => "one_of_several",
            Strength::Unknown => "unknown",
        }
    }
}

impl From<Confidence> for Strength {
    fn from(confidence: Confidence) -> Strength {
        match confidence {
            Confidence::Witnessed => Strength::Witnessed,
            Confidence::Tag => Strength::OnTag,
            Confidence::Claim => Strength::Claimed,
            Confidence::OneOfSeveral => Strength::OneOfSeveral,
            Confidence::Unknown => Strength::Unknown,
        }
    }
}
