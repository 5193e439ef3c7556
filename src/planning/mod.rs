//! What to pollinate next: arithmetic on numbers, not on plants.
//!
//! Every module answers one question about numbers the caller has taken from the registry: how good the best of so many
//! seedlings may be, whether two flowerings meet, which pollinations make the best season within its limits, how much
//! each parent should contribute. Nothing here reads a file or a clock; long work counts steps and can be stopped.

pub mod budget;
mod bundle;
mod domain;
mod duties;
mod fitting;
mod flow;
pub mod frontier;
pub mod intensity;
mod lagrangian_bound;
pub mod merit;
mod network;
mod pack;
pub mod price;
mod relax;
pub mod room;
pub mod search;
pub mod season;
pub mod sexes;
pub mod shared_spikes;
pub mod sift;
mod spike_sets;
mod units;
pub mod windows;
