//! Fast, medium and slow siblings of one sowing, at one age, with the ties between them.

mod answer;
mod rows;
mod told;

pub use answer::{GradeReport, SortWish, sort};
pub use rows::GradedPlant;
pub use told::{Caution, Gone, GradeError};
