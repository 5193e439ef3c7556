//! The sale card: what a careful buyer may know of one plant, from the record alone.
//!
//! What is not recorded is left out, and listed by `--missing`; nothing is filled in. Suppliers, buyers, prices, places and
//! notes never get here. The parents' names, evidence and doubts are those every other answer prints.

mod ancestors;
mod answer;
mod facts;
mod made;
mod missing;
mod sheet;
mod traits;
mod whole;

pub use ancestors::ancestor;
pub use answer::{Ancestor, Card, CardPhoto, TraitSeen};
pub use missing::{Missing, missing};
pub use whole::card;
