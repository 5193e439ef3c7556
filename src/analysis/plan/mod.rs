//! The season's best set of pollinations, with its bound, its rivals and the price of each limit.

mod answer;
mod candidates;
mod caution;
mod cautions;
mod context;
mod days;
mod error;
mod field;
mod flower_ages;
mod gain;
mod goals;
mod idle;
mod later;
mod limits;
mod merits;
mod others;
mod pods;
mod pollen_of;
mod rows;
mod solve;
mod work;
mod worth;

pub use answer::{PlanReport, PlannedRow};
pub use caution::Caution;
pub use days::bounded;
pub use error::{GoalsError, PlanError, WhyNot};
pub use flower_ages::FlowerAges;
pub use gain::{FrontierLabel, FrontierPlan, WEIGHTS};
pub use goals::{GoalsGiven, goals};
pub use idle::Idle;
pub use later::{Hold, Later, LineAhead};
pub use limits::{LimitRow, NamedLimit};
pub use others::{Instead, OtherPlan, PairBeside, PodsChange, pairs_of};
pub use solve::{PlanOptions, plan};
pub use work::Stage;
