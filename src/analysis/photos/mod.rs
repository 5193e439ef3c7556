//! Pictures a phone made, each with the plant it shows: the one whose tag is in the picture, or in the one taken before.

mod answer;
mod place;

pub use answer::{PhotoOf, PictureRead, Placed, Placing, Why};
pub use place::{copy_name, place};
