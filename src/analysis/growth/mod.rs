//! growth

mod alone;
mod answer;
mod circumstances;
mod common_age;
mod compare;
mod germination;
mod group;
mod grown;
mod one_group;
mod rates;
mod sittings;
mod survival;
mod typed;
mod unitless;
mod window;

pub use alone::Alone;
pub use answer::{GrowthReport, GrowthWishes, growth};
pub use compare::{Comparison, Side, Verdict};
pub use germination::GerminationRow;
pub use group::GroupKind;
pub use grown::{Grown, NEAR};
pub use one_group::GroupGrowth;
pub use rates::{CurveRow, RateRow, typical};
pub use survival::SurvivalRow;
pub use unitless::Unitless;
