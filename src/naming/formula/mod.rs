//! A formula: who was crossed with whom, as a record and not as text.
//!
//! Parts lie in one row, every part after the parts it is made of, so all questions are answered by walking along the
//! row: nothing here recurses, however deep the brackets go. A part may stand in several places (both parents of a sib
//! cross), so a formula is as small as what is known, not as long as its text.

mod build;
mod generation;
mod leaf;
mod part;
mod structure;

pub use crate::record::Sex;
pub use build::FormulaBuilder;
pub use generation::{LineOfTwo, line_of_two};
pub(in crate::naming) use leaf::NATURAL_HYBRID;
pub use leaf::{Certainty, Infraspecific, Leaf, Marks, Qualifier, Rank, Tag, Unknown};
pub use part::{Cross, Direction, Formula, Part, PartId, Relation};
pub(in crate::naming) use structure::{Structure, backcross, leaves};
