//! What is due, on the screen, as a table, in a calendar and as a picture.

mod calendar;
mod picture;
mod sheet;
mod words;

pub use calendar::{CalendarEntry, entries};
pub use picture::season_chart;
