//! What a plant, pod or cross is called: its formula, the version that fits a tag, the labels it came with.
//!
//! How a formula is written is the naming floor's; [`tag`] chooses what a tag can hold and keeps account of what it leaves
//! out.

mod answer;
mod error;
mod tag;

pub use answer::{Labels, NameAnswer, NameWishes, name};
pub use error::NameError;
pub use tag::{LeftOut, Tag};
