//! Commands that record what happened at the bench, one file each, and those that look back on what was recorded.

pub mod add;
mod asking;
pub mod changes;
mod from_table;
pub mod gone;
pub mod keep;
pub mod measure;
pub mod pollinate;
pub mod sheet;
pub mod undo;
