//! Plants, crosses and pods one by one, by what a grower filters them for: how far each came and what of it is here.
//!
//! [`filter`] chooses plants, [`species`] finds those that descend from a species; the others hold one kind of row each.

mod crosses;
mod filter;
mod handed_on;
mod plants;
mod pods;
mod species;

pub use crosses::{CrossLine, CrossList, cross_line, crosses};
pub use filter::{PlantFilter, chosen};
pub use handed_on::{Amount, HandedOnLine, handed_on};
pub use plants::{PlantLine, PlantList, TrayLine, plants};
pub use pods::{PodLine, PodList, pod_line, pods};
pub use species::UnknownSpecies;
