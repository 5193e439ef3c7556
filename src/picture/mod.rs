//! Pictures as cameras make them: what a picture looks like upright, when it was taken, and which pot tag it shows.
//!
//! Takes bytes and gives numbers, pixels and the text of codes; it knows no plants and touches no files. Files are read
//! in `text`, what a code names is asked in `analysis`, drawings are made in `render`.

mod corners;
mod focus;
mod mark;
mod pixels;
mod tag;
mod taken;

pub use mark::{mark, mark_of_name};
pub use pixels::{Picture, PictureRefusal};
pub use tag::TagSeen;
pub use taken::{Taken, taken};
