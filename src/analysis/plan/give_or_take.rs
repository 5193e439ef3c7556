//! How far the worth of a plan may be off: by what the readings leave open of its parents, and by what is assumed of species.

use crate::analysis::expected_spread::LEAST_AND_MOST;
use crate::analysis::plan::candidates::SeasonCandidates;
use crate::analysis::plan::context::PlanContext;
use crate::analysis::plan::error::PlanError;
use crate::lineage::PlantRow;
use crate::planning::season::Plan;
use serde::Serialize;
use std::collections::BTreeMap;

/// How far the worth of a plan may be off.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct GiveOrTake {
    /// Standard error of the worth, from the errors of its parents' merits.
    pub error: f64,
    /// The worth if species differ as little and as much as is assumed possible; `null` where the goals say how much they
    /// differ, or where it makes no difference.
    pub if_species_differ: Option<[f64; 2]>,
}

impl PlanContext<'_, '_, '_> {
    /// How far the worth of a plan may be off; `None` where every pod counts 1.
    pub fn give_or_take(
        &self,
        candidates: &SeasonCandidates,
        plan: &Plan,
    ) -> Result<Option<GiveOrTake>, PlanError> {
        if plan.total == 0 {
            return Ok(None);
        }
        // Each pod has half the merit of each parent.
        let mut parts: BTreeMap<PlantRow, f64> = BTreeMap::new();
        for (pair, pods) in pods_of(candidates, plan) {
            for parent in pair {
                *parts.entry(parent).or_default() += 0.5 * f64::from(pods);
            }
        }
        let sum: Vec<(PlantRow, f64)> = parts.into_iter().collect();
        let Some(error) = self.merit.error_of_sum(&sum) else {
            return Ok(None);
        };
        Ok(Some(GiveOrTake {
            error,
            if_species_differ: self.if_species_differ(candidates, plan)?,
        }))
    }

    fn if_species_differ(
        &self,
        candidates: &SeasonCandidates,
        plan: &Plan,
    ) -> Result<Option<[f64; 2]>, PlanError> {
        if self.goals.species_differ_is_stated {
            return Ok(None);
        }
        let parents: Vec<PlantRow> = pods_of(candidates, plan)
            .flat_map(|(pair, _)| pair)
            .collect();
        let mut worths = [0.0; 2];
        for (worth, between) in worths.iter_mut().zip(LEAST_AND_MOST) {
            let of = self.worth_if(&parents, between)?;
            for (place, (at, pods)) in plan.pods.iter().enumerate() {
                let inbreeding = candidates.season.pairings[*at].inbreeding;
                *worth += f64::from(*pods) * of.of(2 * place, 2 * place + 1, inbreeding);
            }
        }
        let [least, most] = worths;
        Ok((most - least > 1e-9).then_some(worths))
    }
}

/// The parents of each row of a plan, with its pods.
fn pods_of<'p>(
    candidates: &'p SeasonCandidates,
    plan: &'p Plan,
) -> impl Iterator<Item = ([PlantRow; 2], u32)> {
    plan.pods.iter().map(|&(at, pods)| {
        let pairing = &candidates.season.pairings[at];
        let pollen = candidates.pollen[pairing.lot].plant;
        ([candidates.seeds[pairing.seed], pollen], pods)
    })
}
