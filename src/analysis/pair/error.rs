//! Why an intended pollination cannot be weighed.

use crate::analysis::carries::carries;
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

carries!(PairError: TooDeep => Shares, PedigreeTooComplex => Pedigree, Singular => Singular);
