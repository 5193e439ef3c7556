//! A picture before it is bytes: shapes and styled text at fixed places, measured in points.
//!
//! [`Scene`] is what the layouts produce; [`svg`](super::svg), [`png`](super::png) and [`pdf`](super::pdf) write it. Text is shaped with one
//! embedded serif, so a picture measures the same on every machine. What is drawn, and where, is decided elsewhere.

mod colour;
mod font;
mod marks;
mod path;
mod photo;
mod words;

pub use colour::{Colour, INK, PAPER, RULE, SOFT, SPECIES, SpeciesLook, species_look};
pub use font::{Face, Glyph, Outline, advance, file_of, glyphs, outline, spelt, width};
pub use marks::{Fill, Mark, Placed, Scene, Stroke, TextRun};
pub use path::{POINTS, Path, Step};
pub use photo::{Photo, PhotoRefusal};
pub use words::{Setting, Word, fit, line_width, set, styled, wrap};
