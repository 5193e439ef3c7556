//! Large, deep and twisted registries: answered in order, without overflow, the same whatever the files are called.

mod albums;
mod brackets;
mod faults;
mod large;
mod loops;
#[path = "../support/nursery.rs"]
mod nursery;
mod order;
mod plain;
#[cfg(target_os = "linux")]
mod plans;
mod renaming;
mod sizes;
