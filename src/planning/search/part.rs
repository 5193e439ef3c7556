//! A part of all plans waiting to be looked at, and which is looked at first.

use std::cmp::Ordering;

use super::super::dual::Judged;
use super::super::relax::Domain;

/// A part of all plans.
pub(super) struct Part {
    /// No plan of the part is worth more units.
    pub bound: i64,
    pub judged: Option<Judged>,
    pub domain: Domain,
    /// Its place in the order in which parts were made.
    pub order: u64,
}

impl Part {
    pub fn new(domain: Domain, bound: i64, order: u64) -> Self {
        Self {
            bound,
            judged: None,
            domain,
            order,
        }
    }

    /// Highest bound first; among equals what is judged, then what was made last.
    fn rank(&self) -> (i64, bool, u64) {
        (self.bound, self.judged.is_some(), self.order)
    }
}

impl PartialEq for Part {
    fn eq(&self, other: &Self) -> bool {
        self.rank() == other.rank()
    }
}

impl Eq for Part {}

impl PartialOrd for Part {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Part {
    fn cmp(&self, other: &Self) -> Ordering {
        self.rank().cmp(&other.rank())
    }
}
