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
    /// One standard deviation of a real seedling's share, 0 to 1; `None` where it cannot be told.
    pub give_or_take: Option<f64>,
}

impl Share {
    /// A share with what a real seedling's strays from it.
    pub(super) fn new((of, share): (Part, Fraction), give_or_take: Option<f64>) -> Share {
        Share {
            of,
            share,
            give_or_take,
        }
    }

    /// The nearest number to the share, 0 to 1.
    pub fn fraction(&self) -> f64 {
        nearest(&self.share)
    }
}
