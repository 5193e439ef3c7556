//! How siblings differ, on the screen and as a picture.

mod chart;
mod parents;
mod sheet;
mod short;
mod together;
mod words;

pub use chart::siblings_chart;
