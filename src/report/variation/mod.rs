//! Which cross varies more, on the screen and as a picture.

mod chart;
mod sheet;
mod words;

pub use chart::variation_chart;
