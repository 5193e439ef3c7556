//! Where words stand in a registry: codes, names, labels, nicknames, places, notes.

mod answer;
mod crosses;
mod excerpt;
mod plants;
mod searched;

pub use answer::{FindReport, find};
pub use excerpt::{excerpt, folded};
pub use searched::{Field, Hit, RecordKind};
