//! A lineage that travels: a plant and its ancestors as pages of a small registry of their own, without private things, and
//! a fingerprint of what they say.
//!
//! What is handed over and what the fingerprint is taken of are the same records, and the names they are read by, written by
//! the same functions. The fingerprint is of their canonical form: the registry they were taken from and the pages that were
//! handed over give the same text, whatever their layout, remarks, order, spelling of dates and other records. Whom things
//! came from, who has them, prices, places, goals, photos and notes are no part of it.

mod arrival;
mod closure;
mod codes;
mod contradictions;
mod facts;
mod fingerprint;
mod known;
mod labels;
mod muddled;
mod names;
mod names_used;
mod of_ours;
mod pollinations;
mod records;
mod same;
mod senses;
mod settling;
mod sheet;
mod take_in;
mod taxa;
mod words;

pub use closure::Lineage;
pub use codes::{Codes, given, teller};
pub use contradictions::contradictions;
pub use facts::{Form, lines, say_which_piece, with_piece};
pub use fingerprint::{Lines, differences, fingerprint, grouped};
pub use known::{Known, Told};
pub use names_used::LISTS;
pub use records::{HandedPage, pages};
pub use senses::labels_agree;
pub use sheet::{LineageSheet, SHEET, digits, read, written};
pub use take_in::{Keep, TakeIn};
pub use taxa::doubts_not_here;
