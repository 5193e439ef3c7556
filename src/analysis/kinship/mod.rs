//! How closely plants are related, through whom, and what each figure assumes.

mod answer;
mod lines;
mod possible;
mod rests_on;

pub use answer::{InbreedingReport, InbreedingRow, KinReport, Kindred, PairRow};
pub use lines::{DescentPath, Drawn, DrawnParents, ParentPair, PathStep};
pub use possible::{Outcome, outcomes};
pub use rests_on::{Assumption, RestsOn, in_shared_batches};
