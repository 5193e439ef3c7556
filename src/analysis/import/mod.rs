//! What tables of a grower's plants hold, and how sure that is: which column is taken for what, which class each row is in,
//! and what each row would bring into the registry.
//!
//! Nothing is written here. Every row of every table is counted once: as a heading or title, or in one class. What a row
//! leaves in doubt is decided by the grower's choices, else it stays in doubt. `recording::import` writes the rows that come.

mod against;
mod answer;
mod cell_words;
mod cells;
mod changed_cells;
mod code_cells;
mod columns;
mod company;
mod corrected_by;
mod count_cells;
mod cross_cells;
mod date_cells;
mod dates;
mod differs;
mod dittos;
mod end_words;
mod ends;
mod equal;
mod facts;
mod figures;
mod gone_cells;
mod heading_days;
mod headings;
mod index;
mod indexing;
mod inexact;
mod known_crosses;
mod known_rows;
mod labels;
mod looks;
mod lost_rows;
mod named_cross;
mod no_plants;
mod number_ranges;
mod open_ends;
mod other_parents;
mod own_row;
mod own_rows;
mod own_sheet;
mod parent_doubts;
mod parents;
mod remarks;
mod said_before;
mod said_ends;
mod said_readings;
mod seed_rows;
mod short_dates;
mod short_years;
mod size_cells;
mod sorted;
mod sorting;
mod source;
mod species;
mod unit_cells;
mod word_lists;

pub use answer::{
    ColumnTaken, DateOrders, Doubt, Import, ImportRow, ImportTable, Kind, ReadOn, RowParents,
    TakenBy, Who, Why,
};
pub use facts::{CodesOf, ELSEWHERE, FateRead, InputTable, RowFacts, SeedCount, TraitCell};
pub use inexact::Inexact;
pub use own_sheet::{KEPT, LEFT_LABEL, PRICE};
pub use sorted::import;
pub use source::rows_in;
