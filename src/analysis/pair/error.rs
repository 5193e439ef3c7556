//! Why an intended pollination cannot be weighed.

use crate::ancestry::TooDeep;
use crate::kinship::Singular;
use crate::lineage::PedigreeTooComplex;

/// Why an intended pollination cannot be weighed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PairError {
    /// The line is too long for exact shares.
    Shares(TooDeep),
    /// The pedigree cannot be solved.
    Pedigree(PedigreeTooComplex),
    /// Parents are completely inbred.
    Singular(Singular),
}

impl From<TooDeep> for PairError {
    fn from(error: TooDeep) -> PairError {
        PairError::Shares(error)
    }
}

impl From<PedigreeTooComplex> for PairError {
    fn from(error: PedigreeTooComplex) -> PairError {
        PairError::Pedigree(error)
    }
}

impl From<Singular> for PairError {
    fn from(error: Singular) -> PairError {
        PairError::Singular(error)
    }
}
