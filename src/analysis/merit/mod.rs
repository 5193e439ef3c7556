//! Predicted merit of plants as parents, from all relatives and repeated readings.

mod answer;
mod better;
mod caution;
mod cautions;
mod error;
mod listed;
mod merit_model;
mod model;
mod options;
mod solved;
mod species;

pub use answer::{MeritOfTrait, MeritReport, MeritRow, MeritSource, MeritUnit, TraitOfMerit};
pub use better::Compared;
pub use caution::{Caution, TraitAssumed, WhyLeftOut};
pub use error::MeritError;
pub use listed::{ErrorOfSum, merit, with_merit};
pub use merit_model::{LEAST_AGES, LEAST_PODS, LEAST_READINGS, MeritModel};
pub use options::{MeritOptions, Parts};
