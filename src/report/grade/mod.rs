//! Sizes of siblings on the screen.

mod sheet;
mod words;
