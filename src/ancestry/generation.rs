//! How many crosses lie between a plant and its founders.
//!
//! Founders stand at 0; so does an unknown parent, which makes the longest and mean figures lower bounds wherever a
//! parent is unknown. Computed once per origin. Label words such as F2 are derived in [`super::label`].

use crate::lineage::{Origin, OriginRow, Pedigree, PlantRow};

/// The generation figures of one plant, in crosses.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Generation {
    /// Crosses along the longest line to a founder.
    pub longest: u32,
    /// Crosses along the shortest line to a founder or an unknown parent.
    pub shortest: u32,
    /// 1 + the mean of the parents' mean; over alternatives the weighted mean, equal weights where none are stated.
    pub mean: f64,
}

/// The generation of every plant.
#[derive(Clone, PartialEq, Debug)]
pub struct Generations(Vec<Generation>);

impl Generations {
    /// Computes them for all origins of a pedigree.
    pub fn of(pedigree: &Pedigree) -> Self {
        let mut origins = Self(Vec::with_capacity(pedigree.origins().len()));
        for origin in pedigree.origins() {
            let generation = origins.of_origin(pedigree, origin);
            origins.0.push(generation);
        }
        origins
    }

    /// The generation of a plant; zero for a founder.
    pub fn generation(&self, pedigree: &Pedigree, plant: PlantRow) -> Generation {
        pedigree
            .origin_row(plant)
            .map_or_else(Generation::default, |origin| self.0[origin.index()])
    }

    /// The generation of the plants of an origin.
    pub fn generation_of_origin(&self, origin: OriginRow) -> Generation {
        self.0[origin.index()]
    }

    fn of_origin(&self, pedigree: &Pedigree, origin: &Origin) -> Generation {
        let weights = origin
            .weights()
            .unwrap_or_else(|| vec![1; origin.pairs.len()]);
        let total: u64 = weights.iter().sum();
        let mut sum = Generation {
            shortest: u32::MAX,
            ..Generation::default()
        };
        for (pair, weight) in origin.pairs.iter().zip(weights) {
            let chance = weight as f64 / total as f64;
            for parent in [pair.seed, pair.pollen] {
                let theirs = parent.map_or_else(Generation::default, |plant| {
                    self.generation(pedigree, plant)
                });
                sum.longest = sum.longest.max(1 + theirs.longest);
                sum.shortest = sum.shortest.min(1 + theirs.shortest);
                sum.mean += chance * 0.5 * (1.0 + theirs.mean);
            }
        }
        sum
    }
}
