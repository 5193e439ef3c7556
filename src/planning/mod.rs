//! What to pollinate next.

pub mod merit;
