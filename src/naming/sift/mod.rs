//! What a seller puts around a name: stock code, size, how the plant was grown, where it is from, words of a title.
//!
//! These are taken off both ends of a label before it is read, each kept in a field of its own, and never hung on the last
//! parent. Only stretches that are understood whole are taken off; a word not understood stays for the parser, which keeps
//! it as a label or refuses it. Titles are common practice, no source.

mod ends;
mod facts;
mod front;
mod piece;
mod sifted;
mod words;

pub use facts::LabelFacts;
pub(super) use sifted::{Sifted, sift};
pub(super) use words::{doubt_words, hybrid_words, is_doubt, is_hybrid, is_other_genus};
