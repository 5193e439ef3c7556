//! A pedigree as a list of plants, each set in by its generation: upward the plant on offer first and its parents below it,
//! downward the plant asked for first and its offspring.
//!
//! Every plant is followed once; where it comes again it is only named, and the parents of a cross stand with the first of its seedlings. No function calls itself, so there may be any number
//! of generations. [`pedigree_text`](super::pedigree_text) writes the entries as lines; for a phone they are boxes.

mod down;
mod entry;
mod notes;
mod up;
mod whole;

pub use entry::{Entry, Outline, Said};
pub use notes::{more_text, of_cross, of_plants};
pub use whole::outline;
