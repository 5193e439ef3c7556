//! Reports as bytes: the same input gives the same bytes on any machine.

pub mod album;
pub mod bench_sheet;
pub mod card;
pub mod chart;
pub mod csv;
pub mod dot;
pub mod folding;
pub mod ics;
pub mod json;
pub mod outline;
pub mod pdf;
pub mod pedigree;
pub mod pedigree_text;
pub mod png;
mod registration;
pub mod scene;
pub mod screen;
pub mod slips;
pub mod svg;
pub mod tags;
pub mod text;
mod text_table;
mod written;
mod xlsx;

pub use dot::dot;
pub use pdf::pdf;
pub use pedigree_text::pedigree_text;
pub use png::{PngRefusal, png};
pub use svg::svg;
pub use written::Written;
