//! The whole text: caption, lines of descent, notes.

use super::down::downward;
use super::fold::TIE;
use super::up::upward;
use super::words::{caption, notes};
use crate::report::pedigree::PedigreeDrawing;

/// The pedigree in lines of at most `width` columns: ancestors upward, or descendants downward.
pub fn pedigree_text(drawing: &PedigreeDrawing, width: usize) -> String {
    let lines = match drawing.down {
        true => downward(drawing, width),
        false => upward(drawing, width),
    };
    let text = [caption(drawing, width), lines, notes(drawing, width)].concat();
    text.replace(TIE, " ")
}
