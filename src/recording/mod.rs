//! recording

pub mod marks;

