//! Plants, crosses and pods in rows, by what a grower filters them for.

mod crosses;
mod plants;
mod pods;

pub use crosses::{CrossLine, CrossList, crosses};
pub use plants::{PlantFilter, PlantLine, PlantList, chosen, filter_words, place, plants};
pub use pods::{PodLine, PodList, pods};
