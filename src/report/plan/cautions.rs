//! What a reader of the plan must know before acting on it.

use super::bench::{Bench, Ground};
use crate::planning::search::Found;
use crate::planning::windows::Meeting;

impl Ground<'_, '_, '_> {
    /// One line each.
    pub fn cautions(&self, bench: &Bench, found: &Found) -> Vec<String> {
        let goals = self.goals;
        let mut told = Vec::new();
        if found.plans.is_empty() && found.proved {
            told.push("no plan keeps every limit: ease a cap, a must or a line to keep".to_owned());
        }
        if !bench.guessed.is_empty() {
            let codes: Vec<String> = bench
                .guessed
                .iter()
                .map(|&plant| self.registry.code(plant))
                .collect();
            told.push(format!("sex only guessed: {}", codes.join(", ")));
        }
        let perhaps = found.plans.first().is_some_and(|plan| {
            plan.pods
                .iter()
                .any(|&(at, _)| matches!(bench.meets[at], Meeting::Perhaps(..)))
        });
        if perhaps {
            told.push("some flowers and pollen only perhaps meet: keep back pollen".to_owned());
        }
        if !goals.traits.is_empty() {
            told.push(format!(
                "worth is in genetic standard deviations: mean merit of the parents plus what the best of {} seedlings stands above it; assumed are a heritability of {} and S = {} V between species",
                goals.seedlings_per_pod, goals.heritability, goals.species_differ
            ));
            told.push(
                "a pod worth less than nothing, below the mean of your plants, is not planned"
                    .to_owned(),
            );
        }
        told.push(format!(
            "planned with {} pods to a spike and {} to one pollen{}",
            goals.pods_per_spike,
            goals.uses_per_pollen,
            if goals.weight_on_inbreeding == 0.0 {
                "; inbreeding costs nothing unless the goals give it a weight or a cap"
            } else {
                ""
            }
        ));
        told.push("kinship and inbreeding are at least so much: founders count as unrelated unless a batch is recorded".to_owned());
        told.push(
            "arithmetic on what is recorded, no promise of set; the choice is yours".to_owned(),
        );
        told
    }
}
