//! Plants, crosses and pods in rows.

mod crosses;
mod filter;
mod handed_on;
mod plants;
mod pods;
mod shared;

pub use crosses::{CrossLine, CrossList, crosses};
pub use filter::{filter_words, unknown_species};
pub use handed_on::{HandedOnList, handed_on};
pub use plants::{PlantLine, PlantList, plants};
pub use pods::{PodLine, PodList, pods};
