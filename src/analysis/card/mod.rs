//! What a careful buyer may know of one plant or one piece of it, from the record alone.
//!
//! [`answer`] gathers what is recorded and what is not; [`offered`] says what the card is of, [`traits`] what was read last
//! beside what siblings showed, [`ancestors`] the parents as surely as they are known.

mod ancestors;
mod answer;
mod offered;
mod question;
mod traits;

pub use ancestors::{Ancestor, Clones, ancestors_up};
pub use answer::{CardError, CardSeen, card};
pub use offered::{HowMade, Offered, PestsSeen};
pub use question::Question;
pub(crate) use traits::summary;
pub use traits::{Siblings, TraitSeen, Typed};
