//! Pages of an album as HTML: nothing from elsewhere, readable without a program, by keyboard and aloud.
//!
//! One style sheet and one small program serve all pages. What a record says reaches a page only through [`words`].

mod collection;
mod cross;
mod crosses;
mod curve;
mod frame;
mod further;
mod head;
pub mod live;
mod pedigree;
mod plant;
mod problems;
mod sheet;
mod species;
mod whole;
mod words;
mod work;

pub use frame::{Left, Live};
pub use whole::{PROBLEMS, SCRIPT, SEASON, STYLE, page, pages, problems, season};
