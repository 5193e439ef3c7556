//! Seasons to come: which seedlings that have not flowered are worth holding, and the chance that they serve.

mod answer;
mod cautions;
mod first_flowers;
mod lines;
mod pairs;
mod waiting;

pub use answer::{Hold, Later, LineAhead};
