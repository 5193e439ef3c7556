//! `podbook import`: every row in one class, nothing lost, nothing twice.

#[path = "../commands/bench_top.rs"]
#[allow(dead_code)]
mod bench_top;
mod choices;
mod generated;
mod kept;
mod random;
mod shapes;
mod tables;
mod workbook;
