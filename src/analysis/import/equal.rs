//! Rows as their own cells have them, and whether each equals one before.

use super::answer::{Doubt, ImportRow, Why};
use super::cells::TableReader;
use super::remarks::remarks;
use super::source::{cells, source};
use crate::record::{Choose, RowClass};
use crate::text::GridRow;
use std::collections::BTreeMap;

/// Rows by their cells, so that one that comes again is known.
#[derive(Default)]
pub(super) struct Equal(BTreeMap<String, (String, usize)>);

impl Equal {
    /// A row with what its own cells say, and whether it equals one before; `read` is the row with ditto marks written out.
    /// Rows with one mark below unlike cells are not equal.
    pub fn row(
        &mut self,
        table: usize,
        reader: &TableReader,
        row: &GridRow,
        read: &GridRow,
    ) -> ImportRow {
        let (facts, mut doubts) = reader.read(read);
        let name = &reader.table.name;
        let mut cells = cells(reader.table, row);
        if row != read {
            cells.push('\n');
            cells.push_str(&super::source::cells(reader.table, read));
        }
        match self.0.get(&cells) {
            Some((of, line)) => {
                let choices = reader.choices;
                let chosen = choices.chosen(RowClass::Duplicate, name, row.line);
                // What else is in doubt was counted with the row it equals.
                doubts.retain(|_| chosen != Choose::LeaveOut);
                let why = Why::Equals(of.clone(), *line);
                doubts.push(Doubt::of_row(RowClass::Duplicate, "", why, chosen));
            }
            None => drop(self.0.insert(cells, (name.clone(), row.line))),
        }
        ImportRow {
            table,
            line: row.line,
            doubts,
            facts,
            source: source(reader.table, row),
            remarks: remarks(reader.table, row),
            ..ImportRow::default()
        }
    }
}
