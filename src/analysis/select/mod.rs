//! Whom to keep, sell or cull, by the rules the grower states: a proposal with the reason on every row.
//!
//! An index of weighted traits, independent levels and the front of plants that no sibling beats stand side by side; the
//! proposal follows the levels first and then the index. A plant not read stays unread: it is never culled for that.

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
pub use response::{KeepResponse, LOW_AND_HIGH};
