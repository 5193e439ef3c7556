//! Reports as bytes: the same input gives the same bytes on any machine.

pub mod csv;
pub mod json;
pub mod text;
