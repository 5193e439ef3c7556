//! Why there is no answer.

use crate::analysis::carries::carries;
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

carries!(ParentageError: TooDeep => TooDeep, PedigreeTooComplex => TooComplex);
