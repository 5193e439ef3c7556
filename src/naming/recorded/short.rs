//! Formulas that are shown only when they are short, found without walking the whole pedigree behind a plant.

use super::plants::{Names, TopOf};
use crate::lineage::{Origin, Pair, PlantRow};
use crate::naming::Formula;
use std::collections::BTreeSet;

/// Fewest characters a cross adds to a formula: its sign and the blanks around.
const CROSS_TAKES: usize = 3;
/// Most plants looked at for a formula that is to be short.
const MOST_BEHIND: usize = 120;

impl Names<'_, '_> {
    /// The formula of a plant or of what was raised from a cross; `None` when it is surely longer than `most` characters, or sibs were crossed with sibs
    /// for more than about sixty generations. Cost does not grow with the pedigree.
    pub fn short_formula(&self, top: TopOf, most: usize) -> Option<Formula> {
        let start = self.start(top);
        let behind = self.few_behind(&self.first_plants(start), most / CROSS_TAKES)?;
        Some(self.built(start, (&behind, false)))
    }

    /// Plants and their ancestors, ascending; `None` when more crosses lie behind them than `most`, not counting those of
    /// sibs, which a formula writes as one generation more.
    fn few_behind(&self, start: &[PlantRow], most: usize) -> Option<Vec<PlantRow>> {
        let pedigree = &self.lineage.pedigree;
        let (mut todo, mut found) = (start.iter().copied().collect::<BTreeSet<_>>(), Vec::new());
        let mut crosses = BTreeSet::new();
        while let Some(plant) = todo.pop_last() {
            found.push(plant);
            todo.extend(pedigree.parents(plant));
            let origin = pedigree.origin_row(plant);
            crosses.extend(origin.filter(|&at| !self.is_of_sibs(&pedigree[at])));
            if crosses.len() > most || found.len() > MOST_BEHIND {
                return None;
            }
        }
        found.reverse();
        Some(found)
    }

    /// Whether two plants with the same two parents, and no others, are the parents: of one cross, or of one that was made
    /// again with the same two, whichever of them bore the seed.
    pub(super) fn is_of_sibs(&self, origin: &Origin) -> bool {
        let pedigree = &self.lineage.pedigree;
        let from = |plant: PlantRow| Some(&pedigree[pedigree.origin_row(plant)?].pairs[..]);
        let [pair] = origin.pairs[..] else {
            return false;
        };
        let (Some(seed), Some(pollen)) = (pair.seed, pair.pollen) else {
            return false;
        };
        let is_of_one_cross = pedigree.origin_row(seed) == pedigree.origin_row(pollen);
        let both = |pair: &Pair| Some(BTreeSet::from([pair.seed?, pair.pollen?]));
        match (from(seed), from(pollen)) {
            (Some([one]), Some([other])) if seed != pollen => match (both(one), both(other)) {
                (Some(one), Some(other)) => one == other,
                // One unknown father may be that of the whole pod; fathers that may differ are not.
                _ => is_of_one_cross && pedigree.origin(seed).is_some_and(is_of_one_pair),
            },
            _ => false,
        }
    }
}

fn is_of_one_pair(origin: &Origin) -> bool {
    origin.donor.shares() == [true, true]
}
