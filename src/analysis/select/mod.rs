//! select

mod ages;
mod answer;
mod choice;
mod fit;
mod judged;
mod known;
mod next;
mod response;
mod rules;

pub(crate) use answer::tally_words;
pub use answer::{KeepReport, KeepWish, Proposal, ReadNext, keep};
pub(crate) use response::response_table;
