//! How long spikes last at most, and of which piece one may be.

use crate::record::Flowering;

/// Days from the first open flower of a spike to the last at most, where its end is not on record: common practice.
pub const LAST_AT_MOST: i32 = 60;

/// Days that no spike keeps its flowers open, nor takes until the first one: twice the longest of common practice.
pub const NO_LONGER: i32 = 2 * LAST_AT_MOST;

/// Whether a spike may be of a piece of its plant: one recorded without a piece may be of any, and so may any where no piece is
/// named.
pub fn may_be_of_piece(flowering: &Flowering, piece: Option<&str>) -> bool {
    let both = flowering.ramet.zip(piece);
    both.is_none_or(|(of, piece)| of == piece)
}
