//! Kinship on the screen and as a picture.

mod picture;
mod sheet;
mod words;

pub use picture::kinship_chart;
pub(crate) use words::{decimal, four_decimals, may_be_words, odds, outcome_words, probability};
