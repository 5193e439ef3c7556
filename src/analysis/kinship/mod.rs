//! How closely plants are related, through whom, and what each figure assumes.

mod answer;
mod kindred;
mod lines;
mod possible;
mod rests_on;
mod swapped;

pub use answer::{InbreedingReport, InbreedingRow, KinReport, PairRow};
pub use kindred::Kindred;
pub use lines::{DescentPath, Drawn, DrawnOf, DrawnParents, ParentPair, PathStep, drawn_of};
pub use possible::{Outcome, outcomes};
pub use rests_on::{Assumption, RestsOn, in_shared_batches};
