//! Pot tags in millimetres: on sheets to cut, or one a page for a label printer.
//!
//! A tag lies across: the QR code at the end that is seen above the pot, then the words, then the end that goes into the
//! soil or the loop, which stays empty. What finds no room is left out in a fixed order and told; no word is cut.

mod compose;
mod fill;
mod qr;
mod sheets;
mod size;

pub use compose::{Composed, Item, TagTooSmall, compose};
pub use qr::{DOT, Qr};
pub use sheets::{Paper, sheets, singles, stacked};
pub use size::TagSize;
