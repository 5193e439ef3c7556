//! Fast, medium and slow siblings of one sowing, at one age, with the ties between them.

mod answer;
mod rows;

pub use answer::{SortReport, SortWish, sort};
