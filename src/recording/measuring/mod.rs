//! A sitting at the keyboard: plant after plant, cell after cell, each answer judged at once.
//!
//! Knows no terminal and writes nothing: [`Session`] says what to ask and what an answer comes to; who asks, and how a row
//! that is whole gets into the registry, is left to others.

mod answer;
mod cells;
mod doubt;
mod session;
mod start;

pub use answer::{Answer, is_dead};
pub use cells::cell;
pub use doubt::{Doubt, Judged, doubt};
pub use session::{PlantToRead, Question, Session, Step};
pub use start::{Start, plants_to_read, session};
