//! The whole outline.

use super::down::downward;
use super::entry::Outline;
use super::up::upward;
use crate::report::PedigreeDrawing;

/// The pedigree told in the direction it was drawn up for.
pub fn outline(drawing: &PedigreeDrawing) -> Outline {
    match drawing.down {
        true => downward(drawing),
        false => upward(drawing),
    }
}
