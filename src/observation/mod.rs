//! What was seen of plants: a reading, a sex, whether a plant is in the collection.
//!
//! One reader of a cell, one rule of sex, one of presence and one of the leaf span, so that what `check` accepts is
//! exactly what the figures use. Which readings belong into one comparison is left to the reports, and what to say of
//! them too.

mod cell;
mod pieces;
mod presence;
mod sex;
mod traits;

pub use cell::{Misread, in_own_unit, value};
pub use pieces::pieces_here;
pub use presence::{Presence, end_of, presence};
pub use sex::{SexSeen, Sighting, sex_seen, sighting, sighting_of};
pub use traits::{PITCHERS, is_too_small, pitcher_named, says_pest, span_trait, trait_named};
