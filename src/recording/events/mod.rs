//! One file an event of the bench: what was asked for becomes changes of pages.

pub mod add;
pub mod gone;
pub mod keep;
pub mod measure;
pub mod pollinate;
pub mod sitting_page;
