//! Kinship on the screen.

mod sheet;
mod words;

pub(crate) use words::{decimal, joined, may_be_words, odds, outcome_words, probability};
