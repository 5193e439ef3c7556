//! A proposal of what to keep, on the screen.

mod grid;
mod response;
mod scatter;
mod sheet;
mod words;

pub use grid::select_grid;
pub use scatter::select_scatter;
