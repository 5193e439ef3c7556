//! Why crosses are not compared, and what a reader must know; how it is said stands in `report`.

use crate::analysis::carries::carries;
use crate::analysis::names_taken::NamesTaken;
use crate::analysis::siblings::UnknownTrait;
use crate::lineage::PedigreeTooComplex;
use crate::observation::circumstances::Circumstance;
use crate::observation::not_here::NotHere;
use crate::observation::series::LeftOut;
use crate::statistics::StatisticsError;

/// Why there is no answer.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum VariationError {
    /// A code that cannot be used, as `observation` words it.
    Scope(String),
    /// A trait that is not declared.
    Trait(UnknownTrait),
    /// A trait of kinds or steps: its name.
    NotAMeasure(String),
}

carries!(VariationError: UnknownTrait => Trait);

/// Why crosses are not set side by side.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum NotCompared {
    /// There is no age at which all were read.
    NoSharedAge,
    /// A figure cannot be worked out.
    NoFigure(StatisticsError),
}

/// Why nothing is expected of a cross.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NotExpected {
    /// A parent is one of several.
    OneOfSeveral,
    /// A parent is not known.
    ParentUnknown,
    /// What is unknown of a parent's descent leaves open how often its two copies are of two species.
    DescentUnknown,
    /// The pedigree is too entangled for exact shares.
    TooComplex(PedigreeTooComplex),
}

/// What a reader must know.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Caution {
    /// Of a reading, as `observation` words it.
    Reading(String),
    /// A name in doubt, as `naming` words it.
    Doubt(String),
    /// On what condition, about the recorded parents, what ancestry predicts holds.
    ParentsAsRight(String),
    /// Names of founders behind the crosses that may be wrong.
    Names(NamesTaken),
    /// No age is shared: each code with the ages and days it was read at, as `observation` words them.
    NoSharedAge(Vec<(String, String)>),
    /// Seedlings that may be of another sowing, pod or cross, which are in no figure.
    MixedUp {
        /// Code of the cross.
        id: String,
        /// How many.
        n: usize,
    },
    /// Readings left out.
    LeftOut {
        /// Code of the cross.
        id: String,
        /// At the age compared.
        here: LeftOut,
        /// At other ages.
        elsewhere: LeftOut,
    },
    /// Plants that were read, but are not among those compared.
    NotCompared {
        /// Code of the cross.
        id: String,
        /// How many.
        n: usize,
        /// Why.
        why: NotHere,
    },
    /// Circumstances of the groups compared.
    Unlike {
        /// Their codes.
        of: Vec<String>,
        /// What was not alike, or is not known to have been.
        circumstances: Vec<Circumstance>,
    },
    /// Counts are compared on their roots: name of the trait.
    CountOnRoot(String),
    /// Plain numbers are compared as they stand: name of the trait.
    PlainNumber(String),
    /// A difference is between these crosses, not between kinds of crosses.
    OneCrossEach,
}
