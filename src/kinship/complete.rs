//! A pedigree made complete for counting genes: every unknown parent becomes a stand-in founder of its own.
//!
//! An unknown parent that all plants of a pod share gets one stand-in, otherwise each plant has its own. Diversity
//! figures are sums over founders, and what comes through unknown parents must neither vanish nor be merged.

use std::collections::HashMap;

use crate::lineage::{Donor, OriginRow, Pedigree, PlantRow};

/// Plants above a set, stand-ins included, numbered parents first.
#[derive(Clone, Debug, Default)]
pub(super) struct Complete {
    /// The plant each row stands for; `None` for a stand-in.
    pub plants: Vec<Option<PlantRow>>,
    ends: Vec<usize>,
    alternatives: Vec<Alternative>,
}

/// One possible pair of parents.
#[derive(Clone, Copy, Debug)]
pub(super) struct Alternative {
    pub parents: [u32; 2],
    pub chance: f64,
}

impl Complete {
    /// Everything above the plants of a set, and the rows of the set in its order.
    pub(super) fn above(pedigree: &Pedigree, set: &[PlantRow]) -> (Self, Vec<u32>) {
        let mut complete = Self::default();
        let mut rows = Rows::default();
        for plant in pedigree.with_ancestors(set) {
            let row = match pedigree.origin_row(plant) {
                None => complete.add(Some(plant), &[]),
                Some(index) => {
                    let alternatives = rows.alternatives(&mut complete, pedigree, index);
                    let row = complete.add(Some(plant), &alternatives);
                    // The next plant of a whole pod has the same.
                    rows.last = Some((index, alternatives));
                    row
                }
            };
            rows.of.insert(plant, row);
        }
        let of_set = set.iter().map(|plant| rows.of[plant]).collect();
        (complete, of_set)
    }

    fn add(&mut self, plant: Option<PlantRow>, alternatives: &[Alternative]) -> u32 {
        self.plants.push(plant);
        self.alternatives.extend_from_slice(alternatives);
        self.ends.push(self.alternatives.len());
        self.plants.len() as u32 - 1
    }

    pub(super) fn len(&self) -> usize {
        self.plants.len()
    }

    pub(super) fn alternatives(&self, row: usize) -> &[Alternative] {
        let start = if row == 0 { 0 } else { self.ends[row - 1] };
        &self.alternatives[start..self.ends[row]]
    }

    pub(super) fn is_founder(&self, row: usize) -> bool {
        self.alternatives(row).is_empty()
    }

    /// Hands values of rows up to their parents, half to each, in the order last to first; `cut` rows hand on nothing.
    pub(super) fn collect(&self, values: &mut [f64], cut: &[bool]) {
        for row in (0..self.len()).rev().filter(|&row| !cut[row]) {
            for alternative in self.alternatives(row) {
                for parent in alternative.parents {
                    values[parent as usize] += 0.5 * alternative.chance * values[row];
                }
            }
        }
    }
}

/// The rows given so far.
#[derive(Default)]
struct Rows {
    of: HashMap<PlantRow, u32>,
    /// What the plant before had, with its origin.
    last: Option<(OriginRow, Vec<Alternative>)>,
    /// Unknown parents that all plants of an origin share: of the seed, of the pollen.
    shared: HashMap<OriginRow, [Option<u32>; 2]>,
}

impl Rows {
    /// The possible parents of one more plant of an origin. A mixed-up plant has those of each origin it may be of.
    fn alternatives(
        &mut self,
        complete: &mut Complete,
        pedigree: &Pedigree,
        index: OriginRow,
    ) -> Vec<Alternative> {
        let own = &pedigree[index];
        let again = self
            .last
            .take()
            .filter(|(last, _)| *last == index && own.donor == Donor::WholePod);
        if let Some((_, alternatives)) = again {
            return alternatives;
        }
        let of: Vec<(OriginRow, f64)> = match own.may_be_of.is_empty() {
            true => vec![(index, 1.0)],
            false => own.chances_of_origins().collect(),
        };
        let mut all = Vec::new();
        for (index, part) in of {
            let origin = &pedigree[index];
            let mut stand_ins = self.shared.get(&index).copied().unwrap_or_default();
            for (pair, chance) in origin.pairs.iter().zip(origin.chances()) {
                let mut row = |parent: Option<PlantRow>, side: usize| match parent {
                    Some(plant) => self.of[&plant],
                    // Whichever pair is the true one, there is one unknown parent of a side.
                    None => *stand_ins[side].get_or_insert_with(|| complete.add(None, &[])),
                };
                all.push(Alternative {
                    parents: [row(pair.seed, 0), row(pair.pollen, 1)],
                    chance: part * chance,
                });
            }
            let shares = origin.donor.shares();
            let kept = [0, 1].map(|side| stand_ins[side].filter(|_| shares[side]));
            self.shared.insert(index, kept);
        }
        all
    }
}
