//! The season's best set of pollinations.

mod answer;
mod bench;
mod cautions;
mod gain;
mod goals;
mod later;
mod limits;
mod merits;
mod sheet;
mod solve;
mod worth;

pub use answer::{LaterRow, LimitRow, PlanReport, PlannedRow, RunnerUp};
pub use gain::frontier_chart;
pub use goals::{Goals, GoalsGiven, goals};
pub use merits::{Merit, PredictedMerit};
pub use solve::{PlanWishes, plan};
