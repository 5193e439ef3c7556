//! What a plant or the seedlings of a cross are expected to descend from, and how far real seedlings stray from it.
//!
//! [`answer`] gathers the figures of the ancestry floor; [`possible`] gives the shares under each possible pair of parents;
//! [`error`] says why there are none.

mod answer;
mod caution;
mod error;
mod possible;
mod share;

pub use answer::{Parentage, SharesAre, parentage};
pub use caution::Caution;
pub use error::ParentageError;
pub use possible::Possibility;
pub use share::Share;
