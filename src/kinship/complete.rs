//! A pedigree made complete for counting genes: every unknown parent becomes a stand-in founder of its own.
//!
//! An unknown parent that all plants of a pod share gets one stand-in, otherwise each plant has its own. Diversity
//! figures are sums over founders, and what comes through unknown parents must neither vanish nor be merged.

use std::collections::HashMap;

use crate::lineage::{Donor, OriginRow, Pair, Pedigree, PlantRow};

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
        let mut row_of = HashMap::new();
        let mut pods: HashMap<OriginRow, Vec<Alternative>> = HashMap::new();
        for plant in pedigree.with_ancestors(set) {
            let row = match pedigree.origin_row(plant) {
                None => complete.add(Some(plant), &[]),
                Some(index) => {
                    let origin = &pedigree[index];
                    let resolve = |complete: &mut Self| -> Vec<Alternative> {
                        let pairs = origin.pairs.iter().zip(origin.chances());
                        pairs
                            .map(|(pair, chance)| complete.alternative(pair, chance, &row_of))
                            .collect()
                    };
                    if origin.donor == Donor::WholePod {
                        let alternatives =
                            pods.entry(index).or_insert_with(|| resolve(&mut complete));
                        complete.add(Some(plant), alternatives)
                    } else {
                        let alternatives = resolve(&mut complete);
                        complete.add(Some(plant), &alternatives)
                    }
                }
            };
            row_of.insert(plant, row);
        }
        let rows = set.iter().map(|plant| row_of[plant]).collect();
        (complete, rows)
    }

    fn add(&mut self, plant: Option<PlantRow>, alternatives: &[Alternative]) -> u32 {
        self.plants.push(plant);
        self.alternatives.extend_from_slice(alternatives);
        self.ends.push(self.alternatives.len());
        self.plants.len() as u32 - 1
    }

    fn alternative(
        &mut self,
        pair: &Pair,
        chance: f64,
        row_of: &HashMap<PlantRow, u32>,
    ) -> Alternative {
        let parents = [pair.seed, pair.pollen].map(|parent| match parent {
            Some(plant) => row_of[&plant],
            None => self.add(None, &[]),
        });
        Alternative { parents, chance }
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
