//! A pedigree told plant after plant, each set in by its generation: upward the plant on offer first and its parents below
//! it, downward the plant asked for first and what came of it.
//!
//! Every plant is followed once; where it comes again it is only named. Nothing calls itself, so any number of generations
//! is told. [`pedigree_text`](super::pedigree_text) writes the entries as lines; for a phone they are boxes.

mod down;
mod entry;
mod notes;
mod up;
mod whole;

pub use entry::{Entry, Outline, Said};
pub use notes::{more_text, of_cross, of_plants};
pub use whole::outline;
