//! Stories of a grower's year as registries: the whole output of a command, and the figures in it.

#[path = "../commands/bench_top.rs"]
pub mod bench_top;

mod bare_number;
mod both_sexes;
mod faster_cross;
