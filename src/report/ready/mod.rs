//! ready

mod sheet;

