//! Tables that are to be brought in: rows by class, columns and what they are taken for, and every row that is not clear.

mod answer;
mod words;

pub use answer::{ClassCount, ColumnRow, DoubtRow, ImportReport, TableRow, import_report};
pub use words::{choice_words, class_words};
