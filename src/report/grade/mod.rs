//! grade

mod sheet;

