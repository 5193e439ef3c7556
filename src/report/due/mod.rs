//! What is due, on the screen, as a table and in a calendar.

mod calendar;
mod sheet;
mod words;

pub use calendar::{CalendarEntry, entries};
