//! Pictures a phone made, each with the plant it shows: the one whose tag is in the picture, or in the one taken before.

mod answer;
mod place;

pub use answer::{Doubt, PictureRead, Placed, Placing, TagBefore, Why};
pub use place::{accepted, copy_name, place};
