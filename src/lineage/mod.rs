//! Who came from whom.

pub mod pedigree;

pub use pedigree::{Donor, Origin, Pair, Pedigree, PlantRow};
