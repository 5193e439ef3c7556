//! What only podbook's own sheet says of a plant: for how much and with which tag it went, and whether it is marked to keep.

use super::answer::ImportTable;
use super::cells::seen;
use super::differs::plain;
use super::facts::RowFacts;
use crate::text::GridRow;

/// Headings of what only this sheet says.
const KEPT: &str = "kept";
const PRICE: &str = "price";
const LEFT_LABEL: &str = "tag it left with";

/// What only this sheet says.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum OwnColumn {
    /// Whether the plant is marked to keep.
    Kept,
    /// What was asked for it when it went.
    Price,
    /// The words on its tag when it went.
    LeftLabel,
}

/// Reads that; nothing of another table.
pub(super) fn left_with(table: &ImportTable, row: &GridRow, facts: &mut RowFacts) {
    if !table.is_own_sheet {
        return;
    }
    let cell = |heading: &str| {
        let cell = plain(&seen(table.headed(heading)?.cell(row)));
        Some(cell).filter(|cell| !cell.is_empty())
    };
    facts.kept = cell(KEPT).is_some();
    if facts.fate.is_some() {
        (facts.price, facts.left_label) = (cell(PRICE), cell(LEFT_LABEL));
    }
}

/// What a column of the sheet holds that no column of another table holds; none of another heading.
pub fn own_column(heading: &str) -> Option<OwnColumn> {
    match heading {
        KEPT => Some(OwnColumn::Kept),
        PRICE => Some(OwnColumn::Price),
        LEFT_LABEL => Some(OwnColumn::LeftLabel),
        _ => None,
    }
}
