//! Why there is no answer.

use crate::ancestry::TooDeep;
use crate::lineage::PedigreeTooComplex;

/// Why the parentage of a unit cannot be given.
#[derive(Debug)]
pub enum ParentageError {
    /// The line is too long for exact shares.
    TooDeep(TooDeep),
    /// The pedigree is too entangled.
    TooComplex(PedigreeTooComplex),
    /// A cross or a pot that raises nothing.
    NoSeedlings,
}

impl From<TooDeep> for ParentageError {
    fn from(error: TooDeep) -> Self {
        Self::TooDeep(error)
    }
}

impl From<PedigreeTooComplex> for ParentageError {
    fn from(error: PedigreeTooComplex) -> Self {
        Self::TooComplex(error)
    }
}
