//! What the pages of an album are filled from: readings of siblings side by side, species in plants, who stands where.

mod collection;
mod readings;
mod species;

pub use collection::{Collection, CollectionPlant, SeedlingHere, here_first};
pub use readings::{Curve, LastSitting, SharedReadings, TraitRead, TraitSeen};
pub use species::SpeciesIn;
