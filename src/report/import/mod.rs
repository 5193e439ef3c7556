//! Tables that are to be brought in: rows by class, columns and what they are taken for, and every row that is not clear.

mod answer;
mod cautions;
mod screen;
mod words;

pub use answer::{ClassCount, ColumnRow, DoubtRow, ImportReport, TableRow, import_report};
