//! Units of sizes that stand neither in a heading nor beside the number: in a line below the headings, or in a column.

use super::answer::{ColumnTaken, TakenBy};
use super::dates::is_blank;
use super::dittos::is_ditto;
use crate::record::{Holds, LengthUnit};
use crate::text::GridRow;

/// The unit that a cell or a piece of a heading is: `cm`, `(in)`.
pub(super) fn unit_in(cell: &str) -> Option<LengthUnit> {
    let ends = |c: char| c.is_whitespace() || "()[].".contains(c);
    LengthUnit::read(&cell.trim_matches(ends).to_lowercase())
}

/// Whether a row has units and nothing else, as a second line of headings does. `m` alone may be a sex, and `"` a ditto.
pub(super) fn is_line_of_units(row: &GridRow) -> bool {
    let mut filled = row.cells.iter().filter(|cell| !cell.trim().is_empty());
    let mut filled = filled.by_ref().peekable();
    let is_unit = |cell: &String| unit_in(cell).is_some_and(|unit| unit != LengthUnit::M);
    filled.peek().is_some() && filled.all(|cell| is_unit(cell) && !is_ditto(cell))
}

/// Gives columns of sizes without a unit the one of a line below the headings.
pub(super) fn from_line(columns: &mut [ColumnTaken], line: &GridRow) {
    for column in columns.iter_mut().filter(|of| is_size(of)) {
        let cell = line.cells.get(column.at);
        column.unit = column.unit.or_else(|| unit_in(cell?));
    }
}

/// Finds the sizes that a column of units is of: those right before it, else the only ones. Of others nothing says which
/// they are, and it is not read.
pub(super) fn from_columns(columns: &mut [ColumnTaken]) {
    let units = columns.iter().filter(|of| of.holds == Holds::Unit);
    for at in units.map(|of| of.at).collect::<Vec<usize>>() {
        let sizes = columns.iter().filter(|of| is_size(of));
        let sizes: Vec<(usize, bool)> = sizes.map(|of| (of.at, of.unit.is_none())).collect();
        let before = sizes.iter().find(|(size, _)| size + 1 == at);
        let only = || sizes.first().filter(|_| sizes.len() == 1);
        let size = before.or_else(only).filter(|(_, bare)| *bare);
        match size {
            Some((size, _)) => columns
                .iter_mut()
                .filter(|of| of.at == *size)
                .for_each(|of| of.unit_in = Some(at)),
            None => columns
                .iter_mut()
                .filter(|of| of.at == at)
                .for_each(|of| (of.holds, of.by) = (Holds::NotRead, TakenBy::Nothing)),
        }
    }
}

/// The unit that a row has for a column of sizes: none where its cell says nothing.
///
/// # Errors
/// With the cell, if that is no unit.
pub(super) fn unit_of_row<'r>(
    column: &ColumnTaken,
    row: &'r GridRow,
) -> Result<Option<LengthUnit>, &'r str> {
    let cell = column.unit_in.and_then(|at| row.cells.get(at));
    match cell.map(|cell| cell.trim()) {
        Some(cell) if !is_blank(cell) => unit_in(cell).map(Some).ok_or(cell),
        _ => Ok(None),
    }
}

fn is_size(column: &ColumnTaken) -> bool {
    matches!(column.holds, Holds::Reading | Holds::Pot)
}
