//! The history of one plant as a picture.

mod picture;
mod words;

pub use picture::history_chart;
