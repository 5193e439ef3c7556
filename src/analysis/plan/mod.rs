//! The season's best set of pollinations, with its bound, its rivals and the price of each limit.

mod answer;
mod bench;
mod cautions;
mod days;
mod field;
mod gain;
mod goals;
mod ground;
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

pub use answer::{LimitRow, OtherPlan, PlanReport, PlannedRow};
pub use gain::{FrontierPlan, WEIGHTS};
pub use goals::{GoalsGiven, goals};
pub use later::{Hold, Later, LineAhead};
pub use solve::{PlanWishes, plan};
pub use work::Stage;
