//! The season's best set of pollinations.

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
mod sheet;
mod solve;
mod tables;
mod work;
mod worth;

pub use answer::{LimitRow, OtherPlan, PlanReport, PlannedRow};
pub use gain::frontier_chart;
pub use goals::{Goals, GoalsGiven, goals};
pub use later::{Hold, Later, LineAhead, YearAhead};
pub use merits::{Merit, PredictedMerit};
pub use solve::{PlanWishes, plan};
pub use work::Stage;
