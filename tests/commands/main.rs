//! Every verb as a grower runs it: the whole output and the exit code, one file per verb.
//!
//! Expected output lies in `snapshots/`. After a change that is meant, run
//! `INSTA_UPDATE=always cargo test --test commands` and read the difference before keeping it.

pub mod bench_top;
pub mod demo;

mod begin;
mod bounded;
mod check;
mod doubts;
mod growth;
mod inches;
mod keep;
mod kin;
mod merit;
mod misread;
mod name;
mod open;
mod outlet;
mod output;
mod pair;
mod payloads;
mod plan;
mod plan_worth;
mod received;
mod screens;
mod siblings;
mod sort;
mod sowings;
mod spread;
mod trays;
mod unread;
mod widths;
mod zero;
