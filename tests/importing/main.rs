//! `podbook import`: every row in one class, nothing lost, nothing twice.

#[path = "../commands/bench_top.rs"]
#[allow(dead_code)]
mod bench_top;
mod choices;
mod contradictions;
mod dittos;
mod ends;
mod generated;
mod kept;
mod lost_codes;
mod no_table;
mod own_sheet;
mod plant_column;
mod quotes;
mod random;
mod seed;
mod shapes;
mod tables;
mod workbook;
mod working;
