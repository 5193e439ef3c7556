//! Predicted merit of plants as parents, from all relatives and repeated readings.

mod answer;
mod better;
mod cautions;
mod herd;
mod listed;
mod model;
mod solved;
mod wishes;

pub use answer::{MeritOfTrait, MeritReport, MeritRow, TraitOfMerit};
pub use better::chance_better;
pub use herd::Herd;
pub use listed::merit;
pub use wishes::{MeritWishes, Parts};
