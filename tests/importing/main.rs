//! `podbook import`: every row in one class, nothing lost, nothing twice.

#[path = "../commands/bench_top.rs"]
#[allow(dead_code)]
mod bench_top;
mod choices;
mod contradictions;
mod dittos;
mod edited;
mod ends;
mod generated;
mod germination;
mod headed;
mod kept;
mod lost_codes;
mod named_parents;
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
