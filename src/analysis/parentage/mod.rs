//! What a plant or the seedlings of a cross are expected to descend from, and how far real seedlings stray from it.
//!
//! [`answer`] gathers the figures of the ancestry floor; [`possible`] gives the shares under each possible pair of parents,
//! [`further_back`] under each of an ancestor's; [`error`] says why there are none.

mod answer;
mod caution;
mod cautions;
mod error;
mod further_back;
mod possible;
mod share;
mod shares_are;

pub use answer::{Parentage, parentage};
pub use caution::Caution;
pub use error::ParentageError;
pub use possible::{Choice, Possibility};
pub use share::Share;
pub use shares_are::SharesAre;
