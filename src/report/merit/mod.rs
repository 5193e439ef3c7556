//! What each plant is worth as a parent, predicted from its own readings and those of all its relatives.
//!
//! `model` says which readings count and which effects they carry, `herd` solves one trait for some plants, `listed`
//! joins traits to an index. Ranking is the reader's; a pollination and a plan ask `herd` alone.

mod answer;
mod herd;
mod listed;
mod model;
mod sheet;
mod wishes;

pub use answer::{MeritOfTrait, MeritReport, MeritRow, TraitOfMerit};
pub use herd::{Herd, Single};
pub use listed::merit;
pub use wishes::{MeritWishes, Parts};
