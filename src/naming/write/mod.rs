//! Formulas as text: breeder order, botanical order, Purdy notation, and versions short enough for a tag.
//!
//! Everything is written with an explicit stack into one text of bounded length. What is Latin is told to the ink, which knows
//! italics and escapes for its style; no wording depends on the style.

mod ascii;
mod basis;
mod botanical;
mod brackets;
mod breeder;
mod fit;
mod ink;
mod leaf;
mod purdy;

pub use ascii::ascii;
pub use botanical::botanical;
pub(in crate::naming) use breeder::bracketed;
pub use breeder::{breeder, formula_only};
pub use fit::{Fitted, Rung, fit, ladder};
pub use ink::{Style, TooLong, Writing, runs};
pub use purdy::purdy;
