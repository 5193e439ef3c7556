//! An open bracket, and what has been read in it since its last comma.

use super::parts::NONE;
use super::scan::Bracket;

/// An open bracket, or the text as a whole.
pub(super) struct Frame {
    /// The part, or [`NONE`] for the text as a whole.
    pub(super) part: u32,
    pub(super) bracket: Bracket,
    /// Where the line of the bracket starts, and by how many bytes that line is indented.
    pub(super) line_start: usize,
    pub(super) indent: usize,
    /// The last part directly inside.
    pub(super) last: u32,
    /// Whether a value has just ended, so that a comma, colon or closing bracket must follow.
    pub(super) filled: bool,
    /// Whether a colon has just been read, so that a value must follow.
    pub(super) colon: bool,
    /// The name read before that colon.
    pub(super) label: (u32, u32),
    /// Whether there was a named field, and the first value without a name.
    pub(super) named: bool,
    pub(super) nameless: u32,
}

impl Frame {
    pub(super) fn new(part: u32, bracket: Bracket, line_start: usize, indent: usize) -> Self {
        Self {
            part,
            bracket,
            line_start,
            indent,
            last: NONE,
            filled: false,
            colon: false,
            label: (0, 0),
            named: false,
            nameless: NONE,
        }
    }
}
