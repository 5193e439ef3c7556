//! One verb, one file.

mod begin;
mod check;
mod diversity;
mod epithet;
mod growth;
mod keep;
mod kin;
mod known;
mod list;
mod merit;
mod name;
mod open;
mod output;
mod pair;
mod paper;
mod pedigree;
mod plan;
mod read;
mod shares;
mod show;
mod siblings;
mod sort;
mod spread;
mod verb;

use known::known;
pub use verb::Verb;
