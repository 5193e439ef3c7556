//! Who grows: sizes at a common age, group against group, with a plain verdict and what it rests on.
//!
//! Groups are crosses, pods, sowings, species or single plants. Which readings may be compared at all is decided in
//! `series`; the arithmetic lies in `statistics`. Here ages are brought together, differences are told with everything
//! else that differed, and growth rates, curves, survival and germination stand beside them.

mod alone;
mod answer;
mod beside;
mod came_up;
mod cautions;
mod circumstances;
mod common_age;
mod compare;
mod course_tables;
mod germination;
mod group;
mod grown;
mod one_group;
mod picture;
mod rates;
mod sheet;
mod sittings;
mod size_tables;
mod survival;
mod survival_picture;
mod typed;
mod unitless;
mod window;

pub use alone::{Alone, NotPlaced};
pub use answer::{GrowthReport, GrowthWishes, growth};
pub use came_up::{CameUp, GerminationCompared};
pub use circumstances::Circumstance;
pub use compare::{Comparison, OtherAge, Side, Verdict};
pub use germination::GerminationRow;
pub use group::{Group, GroupKind};
pub use grown::{AtAge, Grown, NEAR, Point};
pub use one_group::GroupGrowth;
pub use picture::growth_chart;
pub use rates::{CurveRow, ParameterRow, PlantRate, RateRow};
pub use sittings::SittingRow;
pub use survival::{SurvivalRow, SurvivalStep};
pub use survival_picture::survival_chart;
pub use typed::TypedRow;
pub use unitless::{Guess, Unitless};
pub use window::{SharedWindow, WindowRate};
