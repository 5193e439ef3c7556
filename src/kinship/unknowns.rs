//! How much is unknown behind a figure: kinship, inbreeding and diversity are lower bounds as long as founders or
//! unknown parents may be related.

use crate::lineage::{Donor, Pedigree, PlantRow};

/// Founders and gaps above some plants.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Unknowns {
    /// Plants without any recorded parent, themselves included if they are such.
    pub founders: usize,
    /// Parents that are not recorded of plants with a known or possible other parent; one for all plants of a pod, where
    /// the pod had one, and alternatives counted each.
    pub parents: usize,
    /// Pods and crosses with one of several possible pairs of parents.
    pub uncertain: usize,
}

/// Counts what is unknown among some plants and all their ancestors.
pub fn unknowns(pedigree: &Pedigree, plants: &[PlantRow]) -> Unknowns {
    let mut counted = Unknowns::default();
    let mut seen = std::collections::HashSet::new();
    for plant in pedigree.with_ancestors(plants) {
        let Some(index) = pedigree.origin_row(plant) else {
            counted.founders += 1;
            continue;
        };
        let origin = &pedigree[index];
        let first = seen.insert(index);
        counted.uncertain += usize::from(first && origin.pairs.len() > 1);
        if first || origin.donor == Donor::EachSeed {
            let sides = origin
                .pairs
                .iter()
                .flat_map(|pair| [pair.seed, pair.pollen]);
            counted.parents += sides.filter(Option::is_none).count();
        }
    }
    counted
}
