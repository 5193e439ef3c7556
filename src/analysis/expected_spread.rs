//! How much the seedlings of a pod are expected to differ, from what their parents descend from.

use crate::ancestry::{Founders, TraitVariance, two_copies, variance_from_parent};
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
    of: BTreeMap<PlantRow, PodVariance>,
}

/// A variance within pods, in units of V. It grows with S along a straight line.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct PodVariance {
    /// If species did not differ.
    alike: f64,
    /// What each V between species adds.
    by_species: f64,
}

impl PodVariance {
    /// For S = `between` (0 or more).
    pub fn at(self, between: f64) -> f64 {
        self.alike + self.by_species * between
    }

    /// What two parents add together.
    pub fn and(self, other: PodVariance) -> PodVariance {
        PodVariance {
            alike: self.alike + other.alike,
            by_species: self.by_species + other.by_species,
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
        let of = plants.iter().zip(&copies).map(|(&plant, copies)| {
            let with = |between: f64| {
                let assumed = TraitVariance {
                    within: &|_| 1.0,
                    between: &|_, _| between,
                };
                variance_from_parent(copies, &assumed)
            };
            let alike = with(0.0);
            let by_species = with(1.0) - alike;
            (plant, PodVariance { alike, by_species })
        });
        Ok(Self { of: of.collect() })
    }

    /// What one of the plants adds to the variance of its pods.
    pub fn from(&self, plant: PlantRow) -> PodVariance {
        self.of[&plant]
    }

    /// Variance of the pod of two of the plants.
    pub fn variance(&self, seed: PlantRow, pollen: PlantRow) -> PodVariance {
        self.from(seed).and(self.from(pollen))
    }

    /// The standard deviation that is seen in the pod of two of the plants, against that of a species' pod, for each of
    /// [`LEAST_AND_MOST`], at a heritability inside a species of 0 to 1.
    pub fn ratio(&self, seed: PlantRow, pollen: PlantRow, heritability: f64) -> [f64; 2] {
        let of_a_species = seen_variance(OF_A_SPECIES, heritability);
        LEAST_AND_MOST.map(|between| {
            let genetic = self.variance(seed, pollen).at(between);
            libm::sqrt(seen_variance(genetic, heritability) / of_a_species)
        })
    }
}
