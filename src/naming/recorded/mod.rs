//! Names of what a registry holds: formulas from recorded parents, founders read from their labels.

mod doubts;
mod founders;
mod labels;
mod missing;
mod plants;
mod seed;
mod short;
mod words;
mod written;

pub use founders::{FounderName, accepted, founder_name, later};
pub use labels::{NameAlone, NamesAlone, SeedLabel};
pub use missing::{MissingNames, missing_names, unreadable, words_for};
pub use plants::{Names, TopOf};
pub use words::{vocabulary, vocabulary_of_both};
