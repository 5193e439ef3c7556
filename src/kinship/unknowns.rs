//! How much is unknown behind a figure: kinship, inbreeding and diversity are lower bounds as long as founders or
//! unknown parents may be related.

use std::collections::HashSet;

use crate::lineage::{OriginRow, Pair, Pedigree, PlantRow};

/// Founders and gaps above some plants.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Unknowns {
    /// Plants without any recorded parent, themselves included if they are such.
    pub founders: usize,
    /// Seed and pollen parents that are not recorded, or may not be; one for all plants of a pod, where the pod had one.
    pub parents: usize,
    /// Pods and crosses with one of several possible pairs of parents.
    pub uncertain: usize,
    /// Plants that may be of several pods, so that each has one of several possible pairs of its own.
    pub uncertain_plants: usize,
}

/// Counts what is unknown among some plants and all their ancestors.
pub fn unknowns(pedigree: &Pedigree, plants: &[PlantRow]) -> Unknowns {
    let mut counted = Unknowns::default();
    let mut seen = HashSet::new();
    let mut parents = UnknownParents {
        pedigree,
        counted: HashSet::new(),
    };
    for plant in pedigree.with_ancestors(plants) {
        let Some(index) = pedigree.origin_row(plant) else {
            counted.founders += 1;
            continue;
        };
        let origin = &pedigree[index];
        match origin.may_be_of.is_empty() {
            true => {
                let is_first = seen.insert(index);
                counted.uncertain += usize::from(is_first && origin.is_one_of_several());
            }
            false => counted.uncertain_plants += usize::from(origin.is_one_of_several()),
        }
        counted.parents += match &origin.may_be_of[..] {
            [] => parents.more_of(index),
            several => several.iter().map(|of| parents.more_of(of.0)).sum(),
        };
    }
    counted
}

/// Unknown parents, those that all plants of an origin share counted once.
struct UnknownParents<'p> {
    pedigree: &'p Pedigree,
    counted: HashSet<OriginRow>,
}

impl UnknownParents<'_> {
    /// How many one more plant of an origin adds.
    fn more_of(&mut self, index: OriginRow) -> usize {
        let origin = &self.pedigree[index];
        let first = self.counted.insert(index);
        let unknown = |side: fn(&Pair) -> Option<PlantRow>| {
            origin.pairs.iter().any(|pair| side(pair).is_none())
        };
        let sides = [unknown(|pair| pair.seed), unknown(|pair| pair.pollen)];
        let sides = sides.into_iter().zip(origin.donor.shares());
        sides
            .filter(|(unknown, shared)| *unknown && (first || !shared))
            .count()
    }
}
