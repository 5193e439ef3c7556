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

/// The plants that are ancestors of some of a set whichever of the possible pairs of parents is true.
pub(super) fn sure_ancestors(pedigree: &Pedigree, set: &[PlantRow]) -> BTreeSet<PlantRow> {
    let mut found = BTreeSet::new();
    let mut open = set.to_vec();
    while let Some(plant) = open.pop() {
        let Some(origin) = pedigree.origin(plant) else {
            continue;
        };
        let [first, others @ ..] = &origin.pairs[..] else {
            continue;
        };
        for parent in [first.seed, first.pollen].into_iter().flatten() {
            let in_all = others
                .iter()
                .all(|pair| [pair.seed, pair.pollen].contains(&Some(parent)));
            if in_all && found.insert(parent) {
                open.push(parent);
            }
        }
    }
    found
}
