//! A table for another program, with what is said of it on standard error.

use crate::report::table::Table;

/// A table to write, and what is said of it beside.
#[derive(Clone, PartialEq, Debug)]
pub struct ExportTable {
    /// The table, one row a plant.
    pub table: Table,
    /// A line each: how much it holds, what was left out or left empty, what of it is private.
    pub remarks: Vec<String>,
}
