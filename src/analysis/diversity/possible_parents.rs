//! Which ancestors of a set are only one of several possible parents.

use crate::lineage::{Pair, Pedigree, PlantRow};
use crate::registry::OriginRow;
use std::collections::BTreeSet;

/// Plants that are a parent of something behind a set under some of its possible pairs of parents, not under all.
pub(super) fn possible_parents(pedigree: &Pedigree, set: &[PlantRow]) -> BTreeSet<PlantRow> {
    let behind = pedigree.with_ancestors(set).into_iter();
    let origins: BTreeSet<OriginRow> = behind
        .filter_map(|plant| pedigree.origin_row(plant))
        .collect();
    let mut maybe = BTreeSet::new();
    for origin in origins {
        let pairs = &pedigree[origin].pairs;
        let of = |pair: &Pair| [pair.seed, pair.pollen];
        let parents = pairs.iter().flat_map(of).flatten();
        maybe.extend(
            parents.filter(|plant| !pairs.iter().all(|pair| of(pair).contains(&Some(*plant)))),
        );
    }
    maybe
}
