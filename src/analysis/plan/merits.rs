//! What a plant is worth as a parent, as a plan needs it: one number, in genetic standard deviations.

use crate::analysis::merit::{MeritError, MeritOptions, Parts, TraitOfMerit, error_of_sum, merit};
use crate::analysis::plan::caution::Caution;
use crate::analysis::plan::goals::Goals;
use crate::context::Context;
use crate::lineage::PlantRow;
use std::collections::BTreeMap;

/// Merit predicted from readings of the plant and all its relatives.
pub(crate) struct PredictedMerit {
    index: BTreeMap<PlantRow, f64>,
    cautions: Vec<Caution>,
}

impl PredictedMerit {
    /// Predicts the merit of all plants for the traits of the goals; without traits every plant is worth the same.
    ///
    /// # Errors
    /// An unknown trait, or readings that cannot be used.
    pub fn of(context: &Context, goals: &Goals) -> Result<PredictedMerit, MeritError> {
        if goals.traits.is_empty() {
            return Ok(PredictedMerit {
                index: BTreeMap::new(),
                cautions: vec![Caution::NoTraits],
            });
        }
        let report = merit(context, &options(goals))?;
        let index = report.rows.iter().map(|row| row.index);
        let assumed = report.traits.iter().map(TraitOfMerit::assumed);
        let left = report.why_left_out().into_iter();
        Ok(PredictedMerit {
            index: report.plants.iter().copied().zip(index).collect(),
            cautions: assumed
                .map(Caution::Trait)
                .chain(left.map(Caution::MeritOfTheMean))
                .collect(),
        })
    }

    /// Weighted merit of a plant in genetic standard deviations from the mean of all; `None` if nothing is known of it
    /// beyond that mean.
    pub fn of_plant(&self, plant: PlantRow) -> Option<f64> {
        self.index.get(&plant).copied()
    }

    /// Standard error of a weighted sum of merits, each plant once: what the readings leave open.
    ///
    /// # Errors
    /// As [`of`](Self::of).
    pub fn error_of_sum(
        context: &Context,
        goals: &Goals,
        sum: &[(PlantRow, f64)],
    ) -> Result<f64, MeritError> {
        error_of_sum(context, &options(goals), sum)
    }

    /// What the figures assume.
    pub fn cautions(&self) -> &[Caution] {
        &self.cautions
    }
}

fn options(goals: &Goals) -> MeritOptions {
    MeritOptions {
        traits: goals.traits.clone(),
        parts: Parts::with_heritability(goals.heritability),
        estimate: false,
        compare: Vec::new(),
        all: true,
    }
}
