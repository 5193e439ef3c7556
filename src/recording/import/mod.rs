//! Rows of a grower's tables as records: every row that comes becomes a founder, a cross, a seedling, or more about a plant.
//!
//! Codes are given first, so that parents can be named in any order; then each page is written once. A row's cells stand
//! word for word in the note of its record, with file and row: nothing is lost, and a second run knows it.

mod bring_in;
mod choices;
mod codes;
mod founders;
mod pages;
mod parents;
mod sittings;
mod sowings;

pub use bring_in::{Brings, bring_in, contents};
pub use choices::with_choices;
