//! A label cut into words, signs, brackets and quoted names, each with its column.
//!
//! Only shapes are settled here: which × is a sign and which x is a letter, which mark is a quote and which an apostrophe. What
//! a word means is settled by the parser.

mod cut;
mod letter;
mod markup;

pub use cut::{Cut, Kind, Token, cut};
pub(super) use letter::{closing, is_double, is_letter_sign, is_picture, is_sign};
pub(super) use markup::INCH;
