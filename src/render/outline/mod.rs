//! A pedigree told plant after plant, each set in by its generation: upward the plant on offer first and its parents below
//! it, downward the plant asked for first and what came of it.
//!
//! Every plant is followed once; where it comes again it is only named. Nothing calls itself, so any number of generations
//! is told. [`pedigree_text`](super::pedigree_text) writes the entries as lines; for a phone they are boxes.

mod down;
mod notes;
mod up;

pub use notes::{more_text, of_cross, of_plants};

use crate::report::PedigreeDrawing;

/// One thing told, and how far it is set in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// Generations from the start.
    pub depth: usize,
    /// What is told.
    pub said: Said,
}

/// What an entry tells.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Said {
    /// A plant.
    Plant {
        /// Its row.
        row: usize,
        /// How it is related to the plant above: `♀`, `♂ perhaps`, `perhaps`.
        sign: String,
        /// The chance that it is that parent, in brackets; empty where it is certain or not stated.
        chance: String,
        /// Whether all of it was told before.
        again: bool,
        /// Whether it is less sure than a tag that it is this plant.
        doubtful: bool,
    },
    /// A parent that is not known, with its sign.
    Unknown(String),
    /// A cross of the plant above, in words.
    Cross(String),
    /// A remark on the plant above.
    Remark(String),
}

/// A pedigree told, as far as there is room.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Outline {
    /// What is told, in order.
    pub entries: Vec<Entry>,
    /// How many plants are not.
    pub hidden: usize,
}

/// The pedigree told in the direction it was drawn up for.
pub fn outline(drawing: &PedigreeDrawing) -> Outline {
    match drawing.down {
        true => down::downward(drawing),
        false => up::upward(drawing),
    }
}
