//! Genetic diversity of a set of plants, and what losing one of them would cost.
//!
//! Mean kinship of each plant with the set, itself included (Ballou & Lacy 1995, from memory); gene diversity, one
//! minus the mean of those; founder genome equivalents 1 / (2 × mean kinship) (Lacy 1995; Caballero & Toro 2000).
//! Ramets of one plant count once: the set lists plants. How founders are represented stands in [`super::founders`].

use crate::lineage::PlantRow;

use super::relations::Kinship;

/// Diversity figures of a set.
#[derive(Clone, PartialEq, Debug)]
pub struct Diversity {
    /// Mean of all kinships within the set, itself included, 0 to 1.
    pub mean_kinship: f64,
    /// Mean kinship of each plant with the set, in the set's order.
    pub of_plants: Vec<f64>,
    /// Mean inbreeding of the set.
    pub mean_inbreeding: f64,
    /// For each plant what gene diversity would lose if it died; below zero if the rest would be more diverse. Empty
    /// for a single plant.
    pub loss: Vec<f64>,
}

impl Diversity {
    /// 1 − mean kinship.
    pub fn gene_diversity(&self) -> f64 {
        1.0 - self.mean_kinship
    }

    /// 1 / (2 × mean kinship).
    pub fn genome_equivalents(&self) -> f64 {
        0.5 / self.mean_kinship
    }
}

impl Kinship<'_> {
    /// Diversity of a set of different plants, in time proportional to the pedigree.
    ///
    /// # Panics
    /// If the set is empty.
    pub fn diversity(&self, set: &[PlantRow]) -> Diversity {
        assert!(!set.is_empty(), "a set needs a plant");
        let mut marks = vec![0.0; self.pedigree().len()];
        set.iter().for_each(|plant| marks[plant.index()] = 1.0);
        let related = self.product(&marks);
        let size = set.len() as f64;
        let sums: Vec<f64> = set
            .iter()
            .map(|plant| 0.5 * related[plant.index()])
            .collect();
        let total: f64 = sums.iter().sum();
        let inbreeding = set.iter().map(|&plant| self.inbreeding(plant));
        let rest = size - 1.0;
        let without = set.iter().zip(&sums).map(|(&plant, sum)| {
            let own = 0.5 * (1.0 + self.inbreeding(plant));
            (total - 2.0 * sum + own) / (rest * rest)
        });
        let loss = without.map(|mean| mean - total / (size * size));
        Diversity {
            mean_kinship: total / (size * size),
            of_plants: sums.iter().map(|sum| sum / size).collect(),
            mean_inbreeding: inbreeding.sum::<f64>() / size,
            loss: if set.len() > 1 {
                loss.collect()
            } else {
                Vec::new()
            },
        }
    }
}
