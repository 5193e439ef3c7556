//! A part of all plans waiting to be looked at, and which is looked at first.
//!
//! Parts are many and differ little, so none holds a domain of its own: each holds its last change to the domain of the
//! part it was cut from, and changes are kept once for all.

use std::cmp::Ordering;
use std::rc::Rc;

use super::super::domain::Domain;
use super::super::lagrangian_bound::Prices;

/// Changes kept at most: about 100 MB of them with the parts they make.
const MOST_CHANGES: usize = 2_000_000;
/// The domain of all plans, without a change.
const NONE: u32 = u32::MAX;

/// One choice's fewest and most pods set anew.
struct Change {
    before: u32,
    at: u32,
    least: u32,
    most: u32,
}

/// All changes of a search, each behind the one it comes on top of.
#[derive(Default)]
pub(super) struct Changes {
    all: Vec<Change>,
}

impl Changes {
    /// Puts a change on top of another one, and gives its number.
    pub fn with(&mut self, before: u32, at: usize, (least, most): (u32, u32)) -> u32 {
        self.all.push(Change {
            before,
            at: at as u32,
            least,
            most,
        });
        self.all.len() as u32 - 1
    }

    /// Whether no more changes can be kept.
    pub fn is_full(&self) -> bool {
        self.all.len() >= MOST_CHANGES
    }

    /// The domain of all plans with a change and all that lie under it.
    pub fn domain(&self, mut domain: Domain, last: u32) -> Domain {
        let mut path = Vec::new();
        let mut at = last;
        while at != NONE {
            let change = &self.all[at as usize];
            path.push(change);
            at = change.before;
        }
        for change in path.into_iter().rev() {
            let at = change.at as usize;
            (domain.least[at], domain.most[at]) = (change.least, change.most);
        }
        domain
    }
}

/// A part of all plans.
pub(super) struct Part {
    /// No plan of the part is worth more units.
    pub bound: i64,
    /// The last of the changes that make its domain.
    pub changes: u32,
    /// Prices its bound was found under, to start from.
    pub prices: Option<Rc<Prices>>,
    /// Its place in the order in which parts were made.
    pub order: u64,
}

impl Part {
    /// All plans.
    pub fn whole() -> Self {
        Self {
            bound: i64::MAX,
            changes: NONE,
            prices: None,
            order: 0,
        }
    }

    /// A part of this one.
    pub fn smaller(&self, changes: u32, bound: i64) -> Self {
        Self {
            bound: bound.min(self.bound),
            changes,
            prices: self.prices.clone(),
            order: 0,
        }
    }

    /// Highest bound first; among equals what was made last.
    fn rank(&self) -> (i64, u64) {
        (self.bound, self.order)
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
