//! How surely descent is known: for every unit one value that every answer reads.
//!
//! Joins what the lineage knows of parentage with the doubts that naming reads in labels. Two questions are told apart:
//! how each cross behind a unit is known, and how each founder's name is known. Nothing else words a confidence. What a
//! plant is called is left to `naming`, how much of each species it has to `ancestry`.

mod controls;
mod doubt;
mod doubt_words;
mod envelopes;
mod founder_words;
mod further;
mod further_words;
mod listed;
mod names;
mod pollen_told;
mod reworded;
mod sentence;
mod statement;
mod strength;
mod threads;
mod unit;
mod unread;
mod used_mixed_up;
mod whole;

pub use controls::{Controls, controls_on_other_pages, crosses_with_controls};
pub use doubt::{Doubt, Named, Side};
pub use envelopes::{Contents, EnvelopeSays, envelope_says, unsure_envelope};
pub use further::Further;
pub(crate) use listed::number_in_words;
pub use names::{NameKind, NameLink};
pub use pollen_told::pollen_teller;
pub use reworded::in_todays_words;
pub use statement::{Direction, Statement};
pub use strength::Strength;
pub use threads::{shared_threads, zone_code};
pub use unit::Unit;
pub use whole::Evidence;
