//! Why there is no answer.

use crate::lineage::PedigreeTooComplex;

/// Why the variety of a set cannot be worked out.
#[derive(Debug)]
pub enum DiversityError {
    /// The set has no plant.
    Empty,
    /// The pedigree is too entangled.
    TooComplex(PedigreeTooComplex),
}
