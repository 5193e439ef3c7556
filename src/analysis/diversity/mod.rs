//! How much variety a set of plants holds, through which ancestors it comes, and what a death would cost.
//!
//! [`answer`] puts the figures of the kinship floor beside the pieces that are here; [`possible_parents`] finds the
//! ancestors that are only one of several. How rows are put together and worded is left to `report`.

mod answer;
mod error;
mod possible_parents;

pub use answer::{AncestorPart, Diversity, Figures, PlantPart, Rest, SoleLine, diversity};
pub use error::DiversityError;
