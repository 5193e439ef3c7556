//! Pictures of a phone: which tag is read in them, with which plant they are placed, and what is taken in.

#[path = "../commands/bench_top.rs"]
#[allow(dead_code, reason = "shared with the commands")]
mod bench_top;
mod camera;
#[path = "../support/lot.rs"]
mod lot;
mod many;
mod refused;
mod taking_in;
