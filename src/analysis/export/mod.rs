//! What leaves a registry for other programs: parents that are known as plants, and what a garden asks of an accession.
//!
//! How it is set out in columns is decided in `report`; whole records go out as they are in the files.

mod parents;
mod passport;
mod shared;

pub use parents::{KnownParents, known_parents};
pub use passport::{Ancestry, Passport, Passports, Status, Taxon, Unsaid};
pub use shared::Shared;
