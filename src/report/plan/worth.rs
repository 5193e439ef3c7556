//! What a pod would be worth: the merit of its parents, how far its best seedlings stand above them, its inbreeding.

use super::goals::Goals;
use super::ground::Ground;
use crate::kinship::KinshipTable;
use crate::lineage::PlantRow;
use crate::planning::intensity::usefulness;
use crate::report::parent_readings::{ExpectedSpread, MOST_BETWEEN};

impl Ground<'_, '_, '_> {
    /// What pods of some plants would be worth.
    pub fn worth(&self, seeds: &[PlantRow], pollens: &[PlantRow]) -> Result<Worth<'_>, String> {
        let mut plants: Vec<PlantRow> = seeds.iter().chain(pollens).copied().collect();
        plants.sort_unstable();
        plants.dedup();
        let weights: f64 = self
            .goals
            .traits
            .iter()
            .map(|(_, weight)| weight * weight)
            .sum();
        Ok(Worth {
            spread: ExpectedSpread::of(self.lineage, &self.descent.founders, &plants)?,
            kinship: self.kinship.table(&plants),
            merit: plants
                .iter()
                .map(|&plant| self.merit.of(plant).unwrap_or(0.0))
                .collect(),
            plants,
            goals: self.goals,
            weights: libm::sqrt(weights),
        })
    }
}

/// What pods would be worth.
pub(super) struct Worth<'w> {
    plants: Vec<PlantRow>,
    spread: ExpectedSpread,
    kinship: KinshipTable,
    merit: Vec<f64>,
    goals: &'w Goals,
    weights: f64,
}

impl Worth<'_> {
    /// Worth of one pod, and the expected inbreeding of its seedlings. Worth is the mean merit of the parents plus what
    /// the best of the seedlings is expected to stand above it, less the cost of inbreeding; without traits it is 1.
    pub fn of(&self, seed: PlantRow, pollen: PlantRow) -> (f64, f64) {
        let [one, other] =
            [seed, pollen].map(|plant| self.plants.binary_search(&plant).unwrap_or(0));
        let inbreeding = self.kinship.get(one, other);
        let cost = self.goals.weight_on_inbreeding * inbreeding;
        if self.goals.traits.is_empty() {
            return (1.0 - cost, inbreeding);
        }
        let [low, high] = self.spread.variance(seed, pollen);
        let variance = low + (high - low) * self.goals.species_differ / MOST_BETWEEN;
        let deviation = self.weights * libm::sqrt(variance.max(0.0));
        let accuracy = libm::sqrt(self.goals.heritability);
        let mean = 0.5 * (self.merit[one] + self.merit[other]);
        (
            usefulness(mean, self.goals.seedlings_per_pod, accuracy, deviation) - cost,
            inbreeding,
        )
    }

    /// Mean merit of two parents.
    pub fn mean(&self, seed: PlantRow, pollen: PlantRow) -> f64 {
        let at = |plant: PlantRow| self.merit[self.plants.binary_search(&plant).unwrap_or(0)];
        0.5 * (at(seed) + at(pollen))
    }
}
