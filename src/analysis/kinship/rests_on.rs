//! What figures of kinship rest on: founders nobody knows to be related, parents that are not recorded, fathers in doubt.
//!
//! Only what lies behind the plants asked for is counted. How the figures come about is the kinship floor's.

use crate::kinship::{Kinship, unknowns};
use crate::lineage::{Founding, Pedigree, PlantRow};
use serde::Serialize;

/// What is unknown or assumed behind the figures.
#[derive(Serialize)]
pub struct RestsOn {
    /// Founders behind the plants, taken as unrelated unless said otherwise.
    pub founders: usize,
    /// Parents that are not recorded.
    pub unknown_parents: usize,
    /// Crosses with one of several possible pairs of parents.
    pub uncertain: usize,
    /// Plants that may be of several crosses or pods.
    pub uncertain_plants: usize,
    /// Founders counted as full siblings for their shared batch.
    pub founders_in_batches: usize,
    /// Species behind them with a stated background kinship.
    pub backgrounds: usize,
    /// Whether alternatives without stated chances were taken as equally likely.
    pub equal_chances: bool,
}

impl RestsOn {
    /// Counts what is unknown or assumed behind some plants.
    pub fn of(
        (pedigree, kinship): (&Pedigree, &Kinship),
        founding: &Founding,
        plants: &[PlantRow],
    ) -> RestsOn {
        let counted = unknowns(pedigree, plants);
        let above = pedigree.with_ancestors(plants);
        RestsOn {
            founders: counted.founders,
            unknown_parents: counted.parents,
            uncertain: counted.uncertain,
            uncertain_plants: counted.uncertain_plants,
            founders_in_batches: in_shared_batches(founding, &above),
            backgrounds: backgrounds(founding, &above),
            equal_chances: above
                .iter()
                .any(|&plant| kinship.assumes_equal_chances(plant)),
        }
    }

    /// One by one.
    pub fn assumptions(&self) -> Vec<Assumption> {
        let mut all = vec![Assumption::Unrelated {
            founders: self.founders,
            unknown_parents: self.unknown_parents,
            in_batches: self.founders_in_batches,
        }];
        let uncertain = self.uncertain + self.uncertain_plants;
        all.extend((uncertain > 0).then_some(Assumption::Uncertain {
            crosses: self.uncertain,
            plants: self.uncertain_plants,
            equal_chances: self.equal_chances,
        }));
        all.extend((self.backgrounds > 0).then_some(Assumption::Background(self.backgrounds)));
        all
    }
}

/// One thing figures of kinship assume.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Assumption {
    /// Founders and unknown parents are unrelated.
    Unrelated {
        /// Founders.
        founders: usize,
        /// Parents that are not recorded.
        unknown_parents: usize,
        /// Founders counted as full siblings all the same.
        in_batches: usize,
    },
    /// Crosses and plants with one of several possible pairs of parents.
    Uncertain {
        /// How many crosses.
        crosses: usize,
        /// How many plants that may be of several crosses or pods.
        plants: usize,
        /// Whether chances not stated were taken as equal.
        equal_chances: bool,
    },
    /// Species with a stated background kinship.
    Background(usize),
}

/// Founders among some plants that share a batch of seed with another of them.
pub fn in_shared_batches(founding: &Founding, plants: &[PlantRow]) -> usize {
    let batch = |plant: &PlantRow| founding.stock(*plant)?.batch;
    let mut batches: Vec<u32> = plants.iter().filter_map(batch).collect();
    batches.sort_unstable();
    let runs = batches.chunk_by(|a, b| a == b).map(<[u32]>::len);
    runs.filter(|&founders| founders > 1).sum()
}

/// Species behind some founders with a stated background kinship.
fn backgrounds(founding: &Founding, plants: &[PlantRow]) -> usize {
    let stocks = plants.iter().filter_map(|&plant| founding.stock(plant));
    let mut species: Vec<u32> = stocks
        .flat_map(|stock| stock.sides.iter().flatten().map(|(species, _)| *species))
        .filter(|&species| founding.background()[species as usize] > 0.0)
        .collect();
    species.sort_unstable();
    species.dedup();
    species.len()
}
