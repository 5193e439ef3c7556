//! The sheet for the bench on paper: rows 8 mm high to write in, black on white, one scene a page.
//!
//! The head of every page holds the fields for who, where, light and date, and how each column is read, so that a page
//! alone says all. Sizes are millimetres here; a scene counts in points.

mod columns;
mod head;
mod page;
mod paper;

pub use columns::TooWide;
pub use page::{pages, stacked};
pub use paper::Paper;
