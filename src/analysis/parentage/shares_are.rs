//! What exact shares are: those of one plant, a mean, a minimum, or those of a name that may be wrong.

use crate::ancestry::Reserve;
use serde::Serialize;

/// What shares are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SharesAre {
    /// Those of the one pair of parents, and of theirs.
    Certain,
    /// Those that a hybrid's name alone gives, of the plant itself or of a founder behind it.
    ByName,
    /// A mean over several possible pairs, here or further back, by their stated chances.
    Expected,
    /// What all possible pairs have in common, here and further back; the rest is one part or another.
    AtLeast,
    /// Both: a mean over some pairs of what others have in common.
    ExpectedAtLeast,
}

impl SharesAre {
    /// By what keeps them from being those of one plant. A name that may be wrong comes first: where it is, neither a mean
    /// nor a minimum holds.
    pub(crate) fn of(reserve: Reserve) -> SharesAre {
        match (reserve.by_name, reserve.mean, reserve.least) {
            (true, _, _) => SharesAre::ByName,
            (false, false, false) => SharesAre::Certain,
            (false, true, false) => SharesAre::Expected,
            (false, false, true) => SharesAre::AtLeast,
            (false, true, true) => SharesAre::ExpectedAtLeast,
        }
    }
}
