//! A picture before it is bytes: shapes and styled text at fixed places, measured in points.
//!
//! [`Scene`] is what the layouts produce; [`svg`](super::svg) and [`png`](super::png) write it. Text is shaped with one
//! embedded serif, so a picture measures the same on every machine. What is drawn, and where, is decided elsewhere.

mod colour;
mod font;
mod marks;
mod path;
mod words;

pub use colour::{Colour, INK, PAPER, RULE, SOFT, SPECIES, species_colour};
pub use font::{Face, Glyph, Outline, glyphs, outline, width};
pub use marks::{Fill, Mark, Scene, Stroke, TextRun};
pub use path::{Path, Step};
pub use words::{Setting, Word, fit, line_width, set, wrap};
