//! The pedigree of a plant, pod or cross as a drawing: who is in it, and every word.
//!
//! [`who`] chooses the plants, [`drawing`] puts the picture together from [`plants`], [`batches`] and [`crosses`]; [`heading`] says what it is of. Where
//! anything stands on the paper is the layout's question.

mod batches;
mod crosses;
mod drawing;
mod heading;
mod plants;
mod who;

pub use who::{PedigreeWishes, pedigree_of};
