//! Two registries come together: nothing is lost, nothing is made one that is two, and it does not matter who merges.

mod book;
mod cases;
mod edits;
mod folded;
mod likely;
#[path = "../support/nursery.rs"]
mod nursery;
mod of_ours;
mod others;
mod random;
mod said;
mod spikes;
mod taken_back;
mod third;
mod third_grower;
