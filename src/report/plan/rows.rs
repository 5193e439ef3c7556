//! The pollinations of a plan, row by row.

use super::super::open::made_before;
use super::answer::PlannedRow;
use super::bench::Bench;
use super::days::meet_words;
use super::ground::Ground;
use crate::planning::season::Plan;

impl Ground<'_, '_, '_> {
    /// One row for each seed parent and envelope.
    pub(super) fn rows(&self, bench: &Bench, plan: &Plan) -> Vec<PlannedRow> {
        let row = |&(at, pods): &(usize, u32)| {
            let pairing = &bench.season.pairings[at];
            let (seed, pollen) = (bench.seeds[pairing.seed], &bench.pollen[pairing.lot]);
            PlannedRow {
                seed: self.registry.code(seed),
                pollen: self.registry.code(pollen.plant),
                lot: pollen.lot.clone(),
                age_days: pollen.age_days,
                pods,
                pots: pods * pairing.pots,
                mean: self.midparent(seed, pollen.plant),
                worth: pairing.value,
                inbreeding: pairing.inbreeding,
                meet: meet_words(bench.meets[at]),
                pollen_remark: pollen.remark.clone(),
                made_before: made_before(self.registry, seed, pollen.plant),
            }
        };
        plan.pods.iter().map(row).collect()
    }
}
