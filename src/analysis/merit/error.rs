//! Why merit cannot be predicted.

use crate::analysis::carries::carries;
use crate::kinship::Singular;
use crate::lineage::PedigreeTooComplex;
use crate::observation::series::LeftOut;
use crate::planning::merit::Unsolvable;

/// Why merit cannot be predicted.
#[derive(Clone, Debug, PartialEq)]
pub enum MeritError {
    /// The pedigree cannot be solved.
    Pedigree(PedigreeTooComplex),
    /// Parents are completely inbred.
    Singular(Singular),
    /// The equations cannot be solved.
    Unsolvable(Unsolvable),
    /// A name that is no trait's.
    UnknownTrait {
        /// The name.
        name: String,
        /// Codes like it.
        near: Vec<String>,
        /// All codes there are.
        declared: Vec<String>,
    },
    /// A trait of weight 0, by code.
    ZeroWeight(String),
    /// A trait named twice, by code.
    NamedTwice(String),
    /// A trait read in kinds without order, by code.
    Unordered(String),
    /// Nothing comparable was read.
    NothingRead {
        /// Code of the trait.
        code: String,
        /// What was left out.
        left_out: LeftOut,
    },
    /// All readings of a trait are the same, by code.
    AllTheSame(String),
    /// A trait's readings are too few, or explained by age alone, by code.
    NothingLeft(String),
    /// The stated parts leave nothing for the error.
    PartsTooLarge,
    /// Too few readings to estimate heritability from.
    TooFew {
        /// Pods read.
        pods: usize,
        /// Readings.
        readings: usize,
    },
    /// Too few ages to estimate heritability from; so many are apart, 0 when most readings have none.
    TooFewAges(usize),
    /// Heritability was estimated as none.
    NotInherited {
        /// Code of the trait.
        code: String,
        /// Upper limit of it at 95 %.
        most: f64,
    },
}

carries!(MeritError: PedigreeTooComplex => Pedigree, Singular => Singular, Unsolvable => Unsolvable);
