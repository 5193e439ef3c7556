//! How the siblings of a cross, a pod or a sowing differ, trait by trait, at one age.

mod alike;
mod answer;
mod apart;
mod groups;
mod parents;
mod ratio;
mod summary;
mod together;
mod told;

pub use alike::Sibling;
pub(crate) use alike::alike_siblings;
pub use answer::{SiblingsReport, SiblingsWish, known_trait, siblings};
pub use apart::{PodsCompared, most_apart, pods_compared};
pub use groups::{Group, KindCount, Measure, PodApart, PodTest, TestedBy, Which, measure};
pub use parents::{OtherParents, ParentValue};
pub use ratio::{Ratio, RatioAnswer, RatioClass, RatioError, RatioTest, RatioWish};
pub use summary::TraitSummary;
pub use together::{AgeRead, BothAges, Together};
pub use told::{Caution, SiblingsError, UnknownTrait};
