//! select

mod sheet;

