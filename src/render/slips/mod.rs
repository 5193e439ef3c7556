//! Correction slips: one for each plant whose text no longer holds, for whoever has it.

mod markdown;
mod pages;

pub use markdown::slips;
pub use pages::pages;
