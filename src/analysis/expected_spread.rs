//! How much the seedlings of a pod are expected to differ, from what their parents descend from.

use crate::ancestry::{
    Founders, Heterozygosity, TraitVariance, heterozygosity_of_each, two_copies,
    variance_from_parent,
};
use crate::lineage::{Lineage, PedigreeTooComplex, PlantRow};
use crate::statistics::heritability::seen_variance;
use std::collections::BTreeMap;

/// The variance an F2 between two species shows beyond that inside a species (S), in units of the latter (V): a small, a
/// middling and a large difference between species. All three are assumed, since no measurement was found; the middling one
/// is the worked case of the method.
pub const BETWEEN_SPECIES: [f64; 3] = [1.0, 4.0, 8.0];

/// The ends of [`BETWEEN_SPECIES`].
pub const LEAST_AND_MOST: [f64; 2] = [BETWEEN_SPECIES[0], BETWEEN_SPECIES[2]];

/// Variance within a pod of one species, in units of V.
const OF_A_SPECIES: f64 = 0.5;

/// What each of some plants adds to the variance of its pods.
pub struct ExpectedSpread {
    of: BTreeMap<PlantRow, (PodVariance, Heterozygosity)>,
}

/// A variance within pods, in units of V. It grows with S along a straight line.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PodVariance {
    /// If species did not differ.
    alike: f64,
    /// What each V between species adds at least and at most: of unknown descent two copies may be of one species or of two.
    by_species: [f64; 2],
}

impl PodVariance {
    /// Least and most for S = `between` (0 or more).
    pub fn at(self, between: f64) -> [f64; 2] {
        self.by_species.map(|each| self.alike + each * between)
    }

    /// The least at the least and the most at the greatest of [`LEAST_AND_MOST`].
    pub fn least_and_most(self) -> [f64; 2] {
        let [least, most] = LEAST_AND_MOST.map(|between| self.at(between));
        [least[0], most[1]]
    }

    /// What two parents add together.
    pub fn and(self, other: PodVariance) -> PodVariance {
        let ([least, most], [others_least, others_most]) = (self.by_species, other.by_species);
        PodVariance {
            alike: self.alike + other.alike,
            by_species: [least + others_least, most + others_most],
        }
    }
}

impl ExpectedSpread {
    /// Works out what each of some plants adds.
    ///
    /// # Errors
    /// [`PedigreeTooComplex`] as for kinship.
    pub fn of(
        lineage: &Lineage,
        founders: &Founders,
        plants: &[PlantRow],
    ) -> Result<Self, PedigreeTooComplex> {
        let copies = two_copies(&lineage.pedigree, founders, plants)?;
        let of_two_species = heterozygosity_of_each(&lineage.pedigree, founders, plants)?;
        let each = plants.iter().zip(&copies).zip(of_two_species);
        let of = each.map(|((&plant, copies), h)| {
            let assumed = TraitVariance {
                within: &|_| 1.0,
                between: &|_, _| 0.0,
            };
            let alike = variance_from_parent(copies, &assumed);
            let by_species = [h.certain, h.possible].map(|h| 0.5 * h);
            (plant, (PodVariance { alike, by_species }, h))
        });
        Ok(Self { of: of.collect() })
    }

    /// The chance that the two copies of one of the plants are of two species.
    pub fn heterozygosity(&self, plant: PlantRow) -> Heterozygosity {
        self.of[&plant].1
    }

    /// What one of the plants adds to the variance of its pods.
    pub fn from(&self, plant: PlantRow) -> PodVariance {
        self.of[&plant].0
    }

    /// Variance of the pod of two of the plants.
    pub fn variance(&self, seed: PlantRow, pollen: PlantRow) -> PodVariance {
        self.from(seed).and(self.from(pollen))
    }

    /// The least and greatest standard deviation that is seen in the pod of two of the plants, against that of a species'
    /// pod, over [`LEAST_AND_MOST`] and what is unknown of their descent, at a heritability inside a species of 0 to 1.
    pub fn ratio(&self, seed: PlantRow, pollen: PlantRow, heritability: f64) -> [f64; 2] {
        let of_a_species = seen_variance(OF_A_SPECIES, heritability);
        let genetic = self.variance(seed, pollen).least_and_most();
        genetic.map(|of| libm::sqrt(seen_variance(of, heritability) / of_a_species))
    }
}
