//! How closely plants are related, through whom, and what each figure assumes.

mod answer;
mod possible;
mod rests_on;

pub use answer::{InbreedingReport, InbreedingRow, KinReport, Kindred, PairRow};
pub use possible::{Outcome, decimal, may_be_words, odds, outcome_words, outcomes};
pub use rests_on::{RestsOn, in_shared_batches, probability};
