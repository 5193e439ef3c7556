//! What is due: tasks the records call for, each with a range of days and the reason for it.
//!
//! A task is overdue only when every reading of its dates has passed. What is more than three months late is no task for
//! this week but a record that was never closed, and stands apart. Words are left to `report`.

mod answer;
mod context;
mod flowers;
mod pieces;
mod pods;
pub mod practice;
mod ranges;
mod room;
mod row;
mod seed;
mod sittings;

pub use answer::{Caution, DueReport, due};
pub use context::DueOptions;
pub use ranges::{By, DayRange};
pub use room::{MonthRoom, RoomForecast};
pub use row::{Basis, DueRow, SeedSince, Task, Urgency};
