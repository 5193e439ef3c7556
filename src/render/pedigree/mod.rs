//! The picture of descent: founders on the left, the plant on offer on the right.
//!
//! Plants stand in columns by generation, each in a box with its name and a row of eight squares that shows the species
//! it descends from; a small cross mark stands where two parents meet, and the siblings leave from it. [`layout`] decides
//! what stands where and can be asked how many lines cross; [`draw`] paints it, [`on_phone`] lays it out again in one
//! column for a phone, and [`on_paper`] puts it on a sheet. Which plants take part, and every word, is decided by the report.

mod align;
mod block;
mod columns;
mod crossings;
mod draw;
mod fraction;
mod grid;
mod heading;
mod key;
mod letters;
mod lines;
mod manner;
mod order;
mod paper;
mod parts;
mod phone;
mod place;
mod ribbon;
mod sheet;
mod sift;
mod sweep;
mod text;
mod words;

pub use block::lines;
pub use columns::Columns;
pub use draw::{draw, titled};
pub use fraction::written;
pub use grid::times_raised;
pub use heading::{expected, heading_of};
pub use key::{has_doubt, lines_words};
pub use letters::{drawn, letters_of, look_of, without_genus};
pub use paper::on_paper;
pub use parts::{Parts, Signs, Square, Tile, signs_words, squares_words};
pub use phone::on_phone;
pub use place::{Layout, layout};
pub use ribbon::{Ribbon, is_share};
pub use words::words;
