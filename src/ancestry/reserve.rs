//! What keeps exact shares from being those of one plant, its own parents and every ancestor considered.
//!
//! A mean over several pairs of parents, and what they have in common, are figures of no one plant; so are the shares of
//! a line that begins with a hybrid's name alone. Descendants keep the reserve of their ancestors.

use crate::lineage::{Origin, OriginRow, Pedigree};

use super::founders::Founders;
use super::shares::Shares;

/// What stands between the shares of an origin and those of one plant.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Reserve {
    /// Several pairs of parents are possible, here or further back, whether or not that changes the shares.
    pub several_pairs: bool,
    /// The shares are a mean: pairs with stated chances differ in theirs.
    pub mean: bool,
    /// The shares are what pairs without stated chances have in common; the rest is one part or another.
    pub least: bool,
    /// A founder is known by a hybrid's name alone.
    pub by_name: bool,
}

/// The reserve of every origin.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Reserves(Vec<Reserve>);

impl Reserves {
    /// Finds them, parents before offspring; linear in origins.
    pub fn of(pedigree: &Pedigree, founders: &Founders, shares: &Shares) -> Self {
        let mut found = Self(Vec::with_capacity(pedigree.origins().len()));
        for origin in pedigree.origins() {
            let reserve = found.of_one(pedigree, founders, (origin, shares));
            found.0.push(reserve);
        }
        found
    }

    /// The reserve of the plants of an origin.
    pub fn of_origin(&self, origin: OriginRow) -> Reserve {
        self.0[origin.index()]
    }

    fn of_one(
        &self,
        pedigree: &Pedigree,
        founders: &Founders,
        (origin, shares): (&Origin, &Shares),
    ) -> Reserve {
        let several_pairs = origin.pairs.len() > 1;
        let differ = several_pairs && shares.pairs_differ(pedigree, origin);
        let stated = origin.weights().is_some();
        let own = Reserve {
            several_pairs,
            mean: differ && stated,
            least: differ && !stated,
            by_name: false,
        };
        let parents = origin.parents().into_iter();
        let theirs = parents.map(|parent| match pedigree.origin_row(parent) {
            Some(row) => self.of_origin(row),
            None => Reserve {
                by_name: founders.is_by_name(parent),
                ..Reserve::default()
            },
        });
        theirs.fold(own, Reserve::with)
    }
}

impl Reserve {
    fn with(self, other: Self) -> Self {
        Self {
            several_pairs: self.several_pairs || other.several_pairs,
            mean: self.mean || other.mean,
            least: self.least || other.least,
            by_name: self.by_name || other.by_name,
        }
    }
}
