//! A filled table as a sitting: which column is what, which row is which plant, and every row that does not fit.
//!
//! Nothing is written here. Cells are judged by the same rule as at the keyboard.

mod doubts;
mod headings;
mod rows;

pub use doubts::{Doubted, doubts};
pub use headings::{Heading, Means, headings};
pub use rows::{BadRow, Filled, Wanted, Why, filled};
