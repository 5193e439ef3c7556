//! A pedigree as text for the terminal.
//!
//! Every plant is described once; where it comes again only its code is given. What does not fit the lines asked for is
//! counted in a last line. Nothing calls itself, so any number of generations is written.

mod fold;
mod whole;
mod words;

pub use whole::pedigree_text;
