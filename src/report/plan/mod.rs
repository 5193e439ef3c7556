//! The season's best set of pollinations.

mod answer;
mod bench;
mod goals;
mod later;
mod merits;
mod sheet;
mod solve;

pub use answer::{LaterRow, LimitRow, PlanReport, PlannedRow, RunnerUp};
pub use goals::{Goals, GoalsGiven, goals};
pub use merits::{Merit, PredictedMerit};
pub use solve::{PlanWishes, frontier_chart, plan};
