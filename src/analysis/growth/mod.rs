//! Who grows: sizes at a common age, group against group, rates, curves, survival and germination.
//!
//! Groups are crosses, pods, sowings, species or single plants. Which readings may be compared at all is decided in
//! `observation::series`; the arithmetic is in `statistics`. Here ages are brought together, and each comparison keeps
//! what else differed beside it.

mod alone;
mod answer;
mod band;
mod came_up;
mod common_age;
mod compare;
mod germination;
mod group;
mod grown;
mod one_group;
mod rates;
mod sittings;
mod survival;
mod told;
mod typed;
mod typical;
mod unitless;
mod window;

pub use alone::{Alone, NoSize};
pub use answer::{GrowthReport, GrowthWishes, growth};
pub use band::{SizeBand, middle_half};
pub use came_up::{CameUp, GerminationCompared, pods_came_up};
pub use compare::{Averaged, Comparison, Side, Verdict};
pub use germination::GerminationRow;
pub use group::GroupKind;
pub use grown::Grown;
pub use one_group::GroupGrowth;
pub use rates::{CurveRow, RateRow};
pub use survival::{Lived, SurvivalRow};
pub use told::GrowthError;
pub use typical::{TypicalSize, typical};
pub use unitless::Unitless;
pub use window::{SHORTEST, SharedWindow};
