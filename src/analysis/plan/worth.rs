//! What a pod would be worth: the merit of its parents, how far its best seedlings stand above them, its inbreeding.

use crate::analysis::expected_spread::{ExpectedSpread, PodVariance};
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::goals::Goals;
use crate::lineage::{PedigreeTooComplex, PlantRow};
use crate::planning::intensity::expected_best;
use crate::statistics::heritability::heritability_within;

/// Descent that is not known speaks for no pod.
const LEAST: usize = 0;

impl PlanContext<'_, '_, '_> {
    /// What pods of some plants would be worth, with what the goals assume of how much species differ. What is unknown of
    /// their descent counts as of one species.
    pub fn worth(&self, plants: &[PlantRow]) -> Result<Worth<'_>, PedigreeTooComplex> {
        self.worth_if(plants, self.goals.species_differ)
    }

    /// The same if species differed by `between`, in units of V.
    pub fn worth_if(
        &self,
        plants: &[PlantRow],
        between: f64,
    ) -> Result<Worth<'_>, PedigreeTooComplex> {
        let spread = ExpectedSpread::of(
            self.context.lineage(),
            &self.context.descent().founders,
            plants,
        )?;
        let parent = |&plant: &PlantRow| Parent {
            merit: self.merit.of_plant(plant).unwrap_or(0.0),
            variance: spread.from(plant),
        };
        let weights = self.goals.traits.iter();
        let weights: f64 = weights.map(|(_, weight)| weight * weight).sum();
        Ok(Worth {
            parents: plants.iter().map(parent).collect(),
            goals: self.goals,
            between,
            weights: libm::sqrt(weights),
            // The best of as many seedlings is the same for every pair.
            best: expected_best(self.goals.seedlings_per_pod),
        })
    }

    /// Mean merit of two parents.
    pub fn midparent(&self, seed: PlantRow, pollen: PlantRow) -> f64 {
        let of = |plant: PlantRow| self.merit.of_plant(plant).unwrap_or(0.0);
        0.5 * (of(seed) + of(pollen))
    }
}

/// A plant as a parent.
struct Parent {
    merit: f64,
    /// What it adds to the variance of its pods.
    variance: PodVariance,
}

/// What pods of some plants would be worth; plants are meant by their place among them.
pub(crate) struct Worth<'w> {
    parents: Vec<Parent>,
    goals: &'w Goals,
    /// S in units of V.
    between: f64,
    weights: f64,
    /// How far the best of a pod's seedlings stands above their mean, in standard deviations of the pod.
    best: f64,
}

impl Worth<'_> {
    /// Worth of one pod of two plants whose kinship is given. It is the mean merit of the parents plus what the best of
    /// the seedlings is expected to stand above it (the usefulness of Schnell & Utz 1975), less the cost of inbreeding;
    /// without traits it is 1.
    pub fn of(&self, seed: usize, pollen: usize, kinship: f64) -> f64 {
        let cost = self.goals.weight_on_inbreeding * kinship;
        if self.goals.traits.is_empty() {
            return 1.0 - cost;
        }
        let (one, other) = (&self.parents[seed], &self.parents[pollen]);
        let variance = one.variance.and(other.variance);
        0.5 * (one.merit + other.merit) + self.above_the_mean(self.of_pod(variance)) - cost
    }

    /// No pod of a plant with this one or a later one of some plants in falling order of merit is worth more.
    pub fn at_most(&self, seed: usize, pollen: usize, widest: &Widest) -> f64 {
        if self.goals.traits.is_empty() {
            return 1.0;
        }
        let merit = 0.5 * (self.parents[seed].merit + self.parents[pollen].merit);
        merit + widest.0
    }

    /// The widest pod that any of some seed parents could have with any of some donors.
    pub fn widest(&self, seeds: &[usize], donors: &[usize]) -> Widest {
        let variance = |&plant: &usize| self.of_pod(self.parents[plant].variance);
        let most = |of: &[usize]| of.iter().map(variance).fold(0.0, f64::max);
        // A hair more, so that rounding never hides a pair.
        let variance = (most(seeds) + most(donors)) * (1.0 + 1e-9);
        Widest(self.above_the_mean(variance))
    }

    /// Merit of a plant.
    pub fn merit(&self, plant: usize) -> f64 {
        self.parents[plant].merit
    }

    fn of_pod(&self, variance: PodVariance) -> f64 {
        variance.at(self.between)[LEAST].max(0.0)
    }

    /// How much better the seedling that looks best is expected to be than the mean of a pod of this genetic variance,
    /// in genetic standard deviations: `i(n)·h·σ`. It grows with the variance.
    fn above_the_mean(&self, genetic: f64) -> f64 {
        let accuracy = libm::sqrt(heritability_within(genetic, self.goals.heritability));
        self.best * accuracy * self.weights * libm::sqrt(genetic)
    }
}

/// No seedling that looks best is expected farther above the mean of its pod.
pub(crate) struct Widest(f64);
