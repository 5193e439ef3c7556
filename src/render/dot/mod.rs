//! A pedigree in the DOT language, for those who lay it out with Graphviz.
//!
//! [`graph`] puts it together, [`plant`] and [`page`] write the tables that stand in it, [`label`] makes every value from
//! text by type, [`print`] writes it down. Identifiers are made from row numbers, so no text of the registry ever stands
//! outside a quoted or escaped place, whatever it contains.

mod graph;
mod label;
mod page;
mod plant;
mod print;

pub use graph::dot;
