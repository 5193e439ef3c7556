//! What a plant is worth as a parent, as a plan needs it: one number, in genetic standard deviations.

use crate::analysis::merit::{
    ErrorOfSum, MeritOptions, MeritReport, Parts, TraitOfMerit, with_merit,
};
use crate::analysis::plan::caution::Caution;
use crate::analysis::plan::error::PlanError;
use crate::analysis::plan::goals::Goals;
use crate::context::Context;
use crate::lineage::PlantRow;
use std::collections::BTreeMap;

/// Merit predicted from readings of the plant and all its relatives.
pub(crate) struct PredictedMerit<'m> {
    index: BTreeMap<PlantRow, f64>,
    cautions: Vec<Caution>,
    error_of_sum: Option<&'m ErrorOfSum<'m>>,
}

impl PredictedMerit<'_> {
    /// Predicts the merit of all plants for the traits of the goals, and plans with it; without traits every plant is worth
    /// the same.
    ///
    /// # Errors
    /// An unknown trait, readings that cannot be used, or those of `plan`.
    pub fn with<T>(
        context: &Context,
        goals: &Goals,
        plan: impl FnOnce(&PredictedMerit) -> Result<T, PlanError>,
    ) -> Result<T, PlanError> {
        if goals.traits.is_empty() {
            return plan(&PredictedMerit {
                index: BTreeMap::new(),
                cautions: vec![Caution::NoTraits],
                error_of_sum: None,
            });
        }
        let options = MeritOptions {
            traits: goals.traits.clone(),
            parts: Parts::with_heritability(goals.heritability),
            estimate: false,
            compare: Vec::new(),
            all: true,
        };
        with_merit(context, &options, |report, error_of_sum| {
            plan(&PredictedMerit::of(&report, error_of_sum))
        })?
    }

    fn of<'m>(report: &MeritReport, error_of_sum: &'m ErrorOfSum<'m>) -> PredictedMerit<'m> {
        let index = report.rows.iter().map(|row| row.index);
        let assumed = report.traits.iter().map(TraitOfMerit::assumed);
        let left = report.why_left_out().into_iter();
        PredictedMerit {
            index: report.plants.iter().copied().zip(index).collect(),
            cautions: assumed
                .map(Caution::Trait)
                .chain(left.map(Caution::MeritOfTheMean))
                .collect(),
            error_of_sum: Some(error_of_sum),
        }
    }

    /// Weighted merit of a plant in genetic standard deviations from the mean of all; `None` if nothing is known of it
    /// beyond that mean.
    pub fn of_plant(&self, plant: PlantRow) -> Option<f64> {
        self.index.get(&plant).copied()
    }

    /// Standard error of a weighted sum of merits, each plant once: what the readings leave open. `None` where every plant is
    /// worth the same.
    pub fn error_of_sum(&self, sum: &[(PlantRow, f64)]) -> Option<f64> {
        self.error_of_sum.map(|error| error(sum))
    }

    /// What the figures assume.
    pub fn cautions(&self) -> &[Caution] {
        &self.cautions
    }
}
