//! `podbook import`: every row in one class, nothing lost, nothing twice.

#[path = "../commands/bench_top.rs"]
#[allow(dead_code)]
mod bench_top;
mod choices;
mod contradictions;
mod counts_by_day;
mod did_it_go;
mod dittos;
mod doubtful_crosses;
mod edited;
mod edited_crosses;
mod ends;
mod generated;
mod germination;
mod headed;
mod kept;
mod left_out;
mod lost_codes;
mod named_parents;
mod no_plants;
mod no_table;
mod nothing_lost;
mod own_sheet;
mod plain_cells;
mod plant_column;
mod quotes;
mod random;
mod seed;
mod shapes;
mod short_dates;
mod sowing_logs;
mod tables;
mod units_apart;
mod workbook;
mod working;
