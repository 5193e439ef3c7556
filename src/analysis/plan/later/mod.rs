//! later

mod answer;
mod first_flowers;
mod lines;
mod pairs;
mod waiting;

pub use answer::{Hold, Later, LineAhead};
