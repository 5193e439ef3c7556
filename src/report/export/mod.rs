//! Tables and records for other programs: passport data, a sheet of plants, a pedigree in three columns, every record.

mod mcpd;
mod passports;
mod pedigree;
mod plants;
mod records;
mod table;

pub use mcpd::{FIELDS, mcpd_date};
pub use passports::{PassportOptions, passport_table};
pub use pedigree::pedigree_table;
pub use plants::plant_table;
pub use records::{RegistryRecords, registry_records};
pub use table::ExportTable;
