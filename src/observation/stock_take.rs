//! What a stock-take says of a plant: that it, or a piece of it, was not found. That is no reading of the plant.

use crate::registry::{Column, Reading, SittingHead};

/// What a stock-take is called where sittings say how they were made.
pub const STOCK_TAKE: &str = "stock-take";

/// Whether a cell of a sitting is the note of a stock-take, which reads nothing of its plant.
pub fn is_note_of_stock_take(head: &SittingHead, reading: &Reading) -> bool {
    let column = head.columns.get(usize::from(reading.column));
    head.sitting.method.as_deref() == Some(STOCK_TAKE) && column == Some(&Column::Note)
}
