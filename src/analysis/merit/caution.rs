//! What a reader of merit must keep in mind.

use crate::analysis::merit::options::Parts;
use crate::observation::series::LeftOut;

/// One thing to keep in mind.
#[derive(Clone, Debug, PartialEq)]
pub enum Caution {
    /// What the merit in a trait assumes.
    Trait(TraitAssumed),
    /// Plants no better known than by the mean of their pod or species.
    ByTheMean(usize),
    /// Plants left out.
    LeftOut(WhyLeftOut),
    /// Readings that are doubtful, in words.
    Doubtful(String),
    /// Plants that were mixed up, or parents that are not sure, in words.
    Doubt(String),
    /// On what condition, about the recorded parents, the merits hold.
    ParentsAsRight(String),
    /// What ± is.
    Error {
        /// Whether a length is among the traits, whose error is computed on the log scale.
        log_scale: bool,
    },
    /// What a chance comes from.
    Chances,
    /// Traits are taken as independent.
    Independent,
    /// What merit is.
    Meaning,
}

/// What the merit in a trait assumes, and what was left out of it.
#[derive(Clone, Debug, PartialEq)]
pub struct TraitAssumed {
    /// Name of the trait.
    pub name: String,
    /// Parts of the whole variance.
    pub parts: Parts,
    /// Limits of heritability at 95 % when it was estimated.
    pub heritability_limits: Option<(f64, f64)>,
    /// Whether plants are compared at an age.
    pub at_an_age: bool,
    /// Readings left out.
    pub left_out: LeftOut,
}

/// Plants left out for one reason.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyLeftOut {
    /// One cross only was read: its parents cannot be told apart from its mean.
    OneCross(usize),
    /// Their relatives' readings cannot be told apart from the mean of all.
    MeanOfAll(usize),
    /// No relative was read.
    NoReadRelative(usize),
}
