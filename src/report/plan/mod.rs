//! The season's best set of pollinations.

mod later;
mod sheet;
mod tables;

