//! Tables and records for other programs: passport data, a sheet of plants, a pedigree in three columns, every record.

mod mcpd;
mod passports;
mod pedigree;
mod plants;
mod records;

pub use mcpd::{FIELDS, mcpd_date};
pub use passports::{PassportOptions, passport_table};
pub use pedigree::pedigree_table;
pub use plants::plant_table;
pub use records::{RegistryRecords, registry_records};

use super::sheet::Table;

/// A table to write, and what is said of it beside.
#[derive(Clone, PartialEq, Debug)]
pub struct ExportTable {
    /// The table, one row a plant.
    pub table: Table,
    /// A line each: how much it holds, what was left out or left empty, what of it is private.
    pub remarks: Vec<String>,
}
