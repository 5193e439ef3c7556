//! What a plant is worth as a parent, as a plan needs it: one number, in genetic standard deviations.

use crate::analysis::merit::{MeritWishes, Parts, TraitOfMerit, merit};
use crate::analysis::plan::goals::Goals;
use crate::lineage::{Lineage, PlantRow};
use crate::naming::recorded::Names;
use crate::record::Day;
use crate::registry::Registry;
use std::collections::BTreeMap;

/// Worth of plants as parents.
pub trait Merit {
    /// Weighted merit of a plant in genetic standard deviations from the mean of all; `None` if nothing is known of it
    /// beyond that mean.
    fn of(&self, plant: PlantRow) -> Option<f64>;

    /// What the figures rest on, one line each.
    fn rests_on(&self) -> Vec<String>;
}

/// Merit predicted from readings of the plant and all its relatives.
pub struct PredictedMerit {
    index: BTreeMap<PlantRow, f64>,
    cautions: Vec<String>,
}

impl PredictedMerit {
    /// Predicts the merit of all plants for the traits of the goals; without traits every plant is worth the same.
    ///
    /// # Errors
    /// In words, for an unknown trait, or readings that cannot be used.
    pub fn of(
        registry: &Registry,
        lineage: &Lineage,
        names: &Names,
        (goals, today): (&Goals, Day),
    ) -> Result<PredictedMerit, String> {
        if goals.traits.is_empty() {
            let cautions = vec!["no traits are named: every pod counts as one".to_owned()];
            return Ok(PredictedMerit {
                index: BTreeMap::new(),
                cautions,
            });
        }
        let parts = Parts::with_heritability(goals.heritability);
        let wishes = MeritWishes {
            traits: goals.traits.clone(),
            parts,
            estimate: false,
            compare: Vec::new(),
            all: true,
            today,
        };
        let report = merit(registry, lineage, names, &wishes)?;
        let index = report.rows.iter().map(|row| row.index);
        let mut cautions: Vec<String> = report.traits.iter().map(TraitOfMerit::rests_on).collect();
        let left = report.why_left_out();
        cautions.extend(
            left.into_iter()
                .map(|why| format!("merit taken as the mean of all: {why}")),
        );
        Ok(PredictedMerit {
            index: report.plants.iter().copied().zip(index).collect(),
            cautions,
        })
    }
}

impl Merit for PredictedMerit {
    fn of(&self, plant: PlantRow) -> Option<f64> {
        self.index.get(&plant).copied()
    }

    fn rests_on(&self) -> Vec<String> {
        self.cautions.clone()
    }
}
