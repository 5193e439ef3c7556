//! The pollinations of a plan, row by row.

use crate::analysis::kinship::outcomes;
use crate::analysis::plan::answer::PlannedRow;
use crate::analysis::plan::candidates::{PollenOf, SeasonCandidates};
use crate::analysis::plan::context::PlanContext;
use crate::analysis::ready::made_before;
use crate::kinship::{Possible, possible_kinship};
use crate::lineage::PlantRow;
use crate::observation::flowers::{Spike, spikes};
use crate::observation::places::places_of_flowers;
use crate::observation::pollen::place_words;
use crate::observation::sex::sex_seen;
use crate::planning::season::Plan;

impl PlanContext<'_, '_, '_> {
    /// One row for each seed parent and envelope.
    pub(crate) fn rows(&self, candidates: &SeasonCandidates, plan: &Plan) -> Vec<PlannedRow> {
        let cap = self.goals.most_inbreeding.unwrap_or(1.0);
        let in_flower = spikes(self.registry, self.context.today);
        let row = |&(at, pods): &(usize, u32)| {
            let pairing = &candidates.season.pairings[at];
            let (seed, pollen) = (
                candidates.seeds[pairing.seed],
                &candidates.pollen[pairing.lot],
            );
            let possible = self.possible([seed, pollen.plant]);
            let [made_before, perhaps_made_before] = made_before(self.registry, seed, pollen.plant);
            PlannedRow {
                seed: self.registry.code(seed),
                seed_sex: sex_seen(self.registry, seed),
                seed_places: self.places_of(seed, &in_flower),
                pollen: self.registry.code(pollen.plant),
                pollen_sex: sex_seen(self.registry, pollen.plant),
                lot_place: self.place_of_lot(pollen),
                pollen_places: match pollen.lot {
                    Some(_) => Vec::new(),
                    None => self.places_of(pollen.plant, &in_flower),
                },
                lot: pollen.lot.clone(),
                age_days: pollen.age_days,
                pods,
                pots: pods * pairing.pots,
                mean: self.midparent(seed, pollen.plant),
                worth: pairing.value,
                inbreeding: pairing.inbreeding,
                over_the_cap: possible.as_ref().map_or(0.0, |of| of.chance_above(cap)),
                ways_known: possible.is_some(),
                inbreeding_may_be: possible.as_ref().map(outcomes).unwrap_or_default(),
                meet: candidates.meets[at],
                pollen_remark: pollen.remark.clone(),
                made_before,
                perhaps_made_before,
            }
        };
        plan.pods.iter().map(row).collect()
    }

    /// Where the flowers of a plant stand, of all its spikes; without a spike where any piece of it may flower.
    fn places_of(&self, plant: PlantRow, in_flower: &[Spike]) -> Vec<String> {
        let of_plant = in_flower.iter().filter(|spike| spike.plant == plant);
        let mut pieces: Vec<Option<&str>> = of_plant.map(|spike| spike.ramet.as_deref()).collect();
        if pieces.is_empty() {
            pieces.push(None);
        }
        let mut standing: Vec<String> = Vec::new();
        for piece in pieces {
            for place in places_of_flowers(self.registry, plant, piece, self.context.today) {
                if !standing.iter().any(|known| known == place) {
                    standing.push(place.to_owned());
                }
            }
        }
        standing
    }

    fn place_of_lot(&self, pollen: &PollenOf) -> Option<&'static str> {
        let lot = self.registry.pollen_lot(pollen.lot.as_deref()?)?;
        self.registry[lot].stored.map(place_words)
    }

    /// What the inbreeding of a pair's seedlings may be; `None` when there are too many ways. The pedigree was solved as a
    /// whole before, so that no part of it is too complex.
    pub(crate) fn possible(&self, pair: [PlantRow; 2]) -> Option<Possible> {
        possible_kinship(
            &self.context.lineage().pedigree,
            self.context.founding(),
            pair,
        )
        .ok()?
    }
}
