//! Texts as they lie on disk: sources, places in them, their outline, edits that keep every other byte.
//!
//! Answers "what does the registry folder hold", "which line and column is this", "where does this record's field
//! stand", "how is one value changed without touching the rest" and "which known name was meant". What the text
//! *says* is left to `record`; how a fault is told is left to `diagnostic`. With `record::read`, this is the only
//! place that touches the file system.

mod disk;
pub mod edit;
mod folder;
mod left_behind;
mod nearest;
mod new_folder;
pub mod outline;
mod refusal;
mod source;
mod span;

pub use disk::{Unwritten, WhyUnwritten, save};
pub use folder::{NoRegistry, Unread, WhyUnread, find_registry, is_registry, read_plain};
pub use nearest::{Names, nearest};
pub use new_folder::{NoFolder, new_folder};
pub use outline::Outline;
pub use refusal::system_words;
pub use source::{Place, Source, Sources};
pub use span::{FileId, Span};
