//! The error of a difference: of a plant from the mean of several, and of two plants.
//!
//! Errors of two plants go together through every unknown both are predicted with. With r the row of an error's parts
//! ([`Solved::error_parts`]), C the inverse of the equations and v a plant's own variance, two errors have covariance
//! rᵀ C s, and v more when the plants are one. So the error of a difference is no sum of two errors: what both share
//! (the mean of all, the species, the parents) cancels.

use super::assembly::Place;
use super::joined::{Sparse, joined};
use super::predict::Solved;

/// A plant with the columns that are added to its merit.
pub type OfPlant<'t> = (u32, &'t [(u32, f64)]);

/// The mean merit of several plants.
pub struct Centre {
    /// The mean, in the unit of the readings.
    pub merit: f64,
    /// For each unknown how its error goes with that of the mean.
    together: Vec<f64>,
    /// Variance of the mean's error.
    variance: f64,
    /// The plants, ascending, and the part each has in the mean.
    plants: Vec<u32>,
    part: f64,
}

impl Centre {
    /// Whether it is the merit of one plant.
    fn is_of(&self, plant: u32) -> bool {
        self.plants == [plant]
    }

    /// Whether a plant is one of those it is the mean of.
    pub fn holds(&self, plant: u32) -> bool {
        self.plants.binary_search(&plant).is_ok()
    }
}

impl Solved<'_> {
    /// The mean merit of some plants, each once; of none it is 0 and certain.
    pub fn centre<C: AsRef<[(u32, f64)]>>(&self, plants: &[(u32, C)]) -> Centre {
        let part = 1.0 / plants.len().max(1) as f64;
        let mut row = vec![0.0; self.equations.place_of.len()];
        let (mut merit, mut beyond) = (0.0, 0.0);
        for (plant, beside) in plants {
            let beside = beside.as_ref();
            merit += part * self.merit(*plant, beside);
            let (of_plant, variance) = self.error_parts(*plant, beside);
            of_plant
                .iter()
                .for_each(|(at, x)| row[*at as usize] += part * x);
            beyond += part * part * variance;
        }
        let together = self.times_inverse(&row);
        let known: f64 = row.iter().zip(&together).map(|(x, y)| x * y).sum();
        let mut plants: Vec<u32> = plants.iter().map(|(plant, _)| *plant).collect();
        plants.sort_unstable();
        plants.dedup();
        Centre {
            merit,
            together,
            variance: known + beyond,
            plants,
            part,
        }
    }

    /// Standard error of a plant's difference from a mean, or from one plant that was made a mean of its own, in the unit
    /// of the readings; 0 for a plant and itself.
    pub fn error_from(&self, centre: &Centre, of: OfPlant) -> f64 {
        self.error_and_variance(centre, of).0
    }

    /// The same, and the variance of the error of the plant's merit: whoever compares it with another plant later need not
    /// have that worked out again.
    pub fn error_and_variance(&self, centre: &Centre, (plant, beside): OfPlant) -> (f64, f64) {
        let (row, own) = self.error_parts(plant, beside);
        let alone = self.form(&row) + own;
        (self.error_of(centre, plant, (&row, own), alone), alone)
    }

    /// As [`error_from`](Self::error_from), with the variance of the error of the plant's merit known.
    pub fn error_known(&self, centre: &Centre, (plant, beside): OfPlant, alone: f64) -> f64 {
        let (row, own) = self.error_parts(plant, beside);
        self.error_of(centre, plant, (&row, own), alone)
    }

    /// Standard error of a sum of plants' merits, each plant once and with a part in it, as its difference from a mean that
    /// counts as often as all of them together; in the unit of the readings.
    pub fn error_of_sum(&self, centre: &Centre, plants: &[(OfPlant, f64)]) -> f64 {
        let (mut sum, mut own_of_all) = (Sparse::new(), 0.0);
        let (mut times, mut own_in_mean) = (0.0, 0.0);
        for ((plant, beside), part) in plants {
            let (row, own) = self.error_parts(*plant, beside);
            sum.extend(row.iter().map(|(at, x)| (*at, part * x)));
            own_of_all += part * part * own;
            times += part;
            if centre.holds(*plant) {
                own_in_mean += part * centre.part * own;
            }
        }
        let shared: f64 = sum
            .iter()
            .map(|(at, x)| x * centre.together[*at as usize])
            .sum();
        let alone = self.form(&joined(sum)) + own_of_all;
        let shared = shared + own_in_mean;
        libm::sqrt((alone + times * (times * centre.variance - 2.0 * shared)).max(0.0))
    }

    fn error_of(&self, centre: &Centre, plant: u32, (row, own): (&Sparse, f64), alone: f64) -> f64 {
        if centre.is_of(plant) {
            return 0.0;
        }
        let shared: f64 = row
            .iter()
            .map(|(at, x)| x * centre.together[*at as usize])
            .sum();
        // What only this plant's error has is in the mean with the part the plant has in it.
        let own = if centre.holds(plant) {
            centre.part * own
        } else {
            0.0
        };
        libm::sqrt((alone - 2.0 * (shared + own) + centre.variance).max(0.0))
    }

    /// C times a row of all unknowns.
    fn times_inverse(&self, row: &[f64]) -> Vec<f64> {
        let sparse: Sparse = (0..)
            .zip(row)
            .filter(|(_, x)| **x != 0.0)
            .map(|(at, x)| (at, *x))
            .collect();
        let (of_core, _) = self.equations.of_core(&joined(sparse));
        let mut right = vec![0.0; self.equations.core()];
        of_core.iter().for_each(|(at, x)| right[*at as usize] = *x);
        let core = self.factor.solve(&right);
        let one = |(place, own): (&Place, &f64)| match place {
            Place::Core(at) => core[*at as usize],
            Place::Absorbed(at) => self.equations.absorbed_from(*at, *own, &core),
            Place::Absent => 0.0,
        };
        self.equations.place_of.iter().zip(row).map(one).collect()
    }
}
