//! A proposal of what to keep, on the screen.

mod response;
mod sheet;
mod words;
