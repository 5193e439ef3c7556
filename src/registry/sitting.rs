//! Sittings taken apart on their page, where plants are known by number.
//!
//! [`super::settling`] gives their plants rows.

use super::readings::{Cell, CellsOf};
use crate::record::{FreeText, Rows, Sitting};
use crate::text::{FileId, Sources, Span};

/// A sitting taken apart before plants have rows.
#[derive(Debug)]
pub(super) struct LocalSitting<'t> {
    /// The record, without its rows.
    pub sitting: Sitting<'t>,
    /// Plants by their index on the page, or [`FOREIGN`] and their index among the foreign.
    pub rows: Vec<CellsOf>,
    pub cells: Vec<Cell>,
    /// Plants that are not on the page.
    pub foreign: Vec<FreeText<'t>>,
    /// Cells whose text had escapes or was very long.
    pub spelt: Vec<Box<str>>,
    /// How many rows have fewer cells than there are columns, and where the plant of the first stands.
    pub short: Option<(u32, Option<Span>)>,
}

/// The bit that marks a plant of another page; no page has room for so many seedlings of its own.
pub(super) const FOREIGN: u32 = 1 << 31;
/// Columns told apart; a cell beyond them has no column whatever the heading says.
pub(super) const MOST_COLUMNS: usize = u8::MAX as usize;

/// Takes a sitting's rows apart into cells; `find` gives the index of a plant on the page.
pub(super) fn take_sitting<'t>(
    sources: &'t Sources,
    file: FileId,
    mut sitting: Sitting<'t>,
    mut find: impl FnMut(&str) -> Option<u32>,
) -> LocalSitting<'t> {
    let rows: Rows = std::mem::take(&mut sitting.rows);
    let mut taken = LocalSitting {
        sitting,
        rows: Vec::with_capacity(rows.len()),
        cells: Vec::with_capacity(rows.cell_count() - rows.len().min(rows.cell_count())),
        foreign: Vec::new(),
        spelt: Vec::new(),
        short: None,
    };
    for row in rows.iter() {
        let Some((number, cells)) = row.split_first() else {
            continue;
        };
        // A plant without any cell was not read, and nothing can be out of its column.
        if (1..taken.sitting.columns.len()).contains(&cells.len()) {
            let first = || (0, sources.span_of(file, number));
            taken.short.get_or_insert_with(first).0 += 1;
        }
        let plant = find(number).unwrap_or_else(|| {
            taken.foreign.push(number.clone());
            FOREIGN | (taken.foreign.len() as u32 - 1)
        });
        for (column, cell) in cells.iter().enumerate() {
            if !cell.chars().all(char::is_whitespace) {
                taken.add_cell(sources, file, column, cell);
            }
        }
        taken.rows.push(CellsOf {
            plant,
            end: taken.cells.len() as u32,
        });
    }
    taken.cells.shrink_to_fit();
    taken
}

impl LocalSitting<'_> {
    fn add_cell(&mut self, sources: &Sources, file: FileId, column: usize, cell: &FreeText) {
        let span = sources
            .span_of(file, cell)
            .filter(|span| span.len() < u32::from(Cell::SPELT));
        let (start, len) = match span {
            Some(span) => (span.start, span.len() as u8),
            None => {
                self.spelt.push((**cell).into());
                (self.spelt.len() as u32 - 1, Cell::SPELT)
            }
        };
        self.cells.push(Cell {
            start,
            len,
            column: column.min(MOST_COLUMNS) as u8,
        });
    }
}
