//! One share of descent.

use crate::ancestry::Part;
use crate::numeric::{Fraction, nearest};

/// One share.
#[derive(Clone, Debug, PartialEq)]
pub struct Share {
    /// Whose it is.
    pub of: Part,
    /// How much, exactly.
    pub share: Fraction,
    /// One standard deviation of a real seedling's share around the mean of its pod, 0 to 1; `None` where it cannot be told.
    pub spread_within_pod: Option<f64>,
}

impl Share {
    /// A share with what a real seedling's strays from it.
    pub(super) fn new((of, share): (Part, Fraction), spread_within_pod: Option<f64>) -> Share {
        Share {
            of,
            share,
            spread_within_pod,
        }
    }

    /// The nearest number to the share, 0 to 1.
    pub fn fraction(&self) -> f64 {
        nearest(&self.share)
    }
}
