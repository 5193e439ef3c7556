//! How the siblings of a cross, a pod or a sowing differ, trait by trait, at one age.

mod alike;
mod answer;
mod groups;
mod ratio;
mod together;

pub(crate) use alike::alike_siblings;
pub use answer::{SiblingsReport, SiblingsWish, TraitSummary, known_trait, siblings};
pub use groups::{Group, KindCount, Measure, PodTest, measure};
pub use ratio::{RatioAnswer, RatioWish};
pub use together::Together;
