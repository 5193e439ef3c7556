//! What can be pollinated now, on the screen.

mod sheet;
mod words;
