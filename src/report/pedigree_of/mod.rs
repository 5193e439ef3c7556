//! The pedigree of a plant, pod or cross in words.
//!
//! [`drawing`] turns the pedigree into the picture's plants and crosses with its caption and footnotes; [`labels`] says what
//! each plant is called, [`heading`] what the picture is of. Where anything stands on the paper is the layout's question.

mod drawing;
mod heading;
mod labels;

pub use drawing::pedigree_of;
