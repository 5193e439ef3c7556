//! What a pot tag says, the most important first: the code, the cross, the name, when it was sown, the sex that was seen.
//!
//! Which of it finds room on a tag, and in what size of letters, is left to `render`.

mod answer;
mod parents;
mod rows;
mod trays;

pub use answer::{Tag, TagName, Tags};
pub use parents::{known_as, parents_by_code};
pub use rows::tags;
pub use trays::tray_tags;
