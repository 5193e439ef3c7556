//! Seasons to come: pairs that wait for a plant to show its sex.
//!
//! Only the sex is weighed, at one to one: a plant not sexed fits one of known sex in one case of two, and two plants
//! not sexed fit each other in one of two, in either direction. When they will flower is not forecast.

use super::super::standing::{Presence, SexSeen, presence, sex_seen};
use super::answer::LaterRow;
use super::bench::Ground;
use crate::lineage::PlantRow;
use crate::planning::pairs::best_pairs;
use crate::record::Sex;

/// Pairs told.
const TOLD: usize = 8;
/// Plants looked at; of more, those with the highest merit.
const LOOKED_AT: usize = 400;

impl Ground<'_, '_, '_> {
    /// Kept plants here without a known sex.
    pub fn unsexed(&self, kept: &[PlantRow]) -> Vec<PlantRow> {
        let unsexed = |plant: &&PlantRow| sex_seen(self.registry, **plant) == SexSeen::Unsexed;
        kept.iter().filter(unsexed).copied().collect()
    }

    /// The best pairs of kept plants of which at least one has not shown its sex.
    pub fn later(&self, kept: &[PlantRow]) -> Result<Vec<LaterRow>, String> {
        let here =
            |plant: &&PlantRow| presence(self.registry, **plant, self.today) == Presence::Here;
        let mut plants: Vec<PlantRow> = kept.iter().filter(here).copied().collect();
        let merit = |plant: PlantRow| self.merit.of(plant).unwrap_or(0.0);
        plants.sort_by(|&a, &b| merit(b).total_cmp(&merit(a)).then(a.cmp(&b)));
        plants.truncate(LOOKED_AT);
        plants.sort_unstable();
        let sex = |plant: PlantRow| match sex_seen(self.registry, plant) {
            SexSeen::Certain(sex) | SexSeen::Guess(sex, _) => Some(Some(sex)),
            SexSeen::Unsexed => Some(None),
            SexSeen::Contradicted => None,
        };
        let sexes: Vec<Option<Option<Sex>>> = plants.iter().map(|&plant| sex(plant)).collect();
        let worth = self.worth(&plants, &[])?;
        let cap = self.goals.most_inbreeding.unwrap_or(1.0);
        let score = |one: usize, other: usize| {
            let (a, b) = (sexes[one]?, sexes[other]?);
            let waits = one < other && (a.is_none() || b.is_none());
            let (value, inbreeding) = worth.of(plants[one], plants[other]);
            (waits && inbreeding <= cap).then_some(value)
        };
        let best = best_pairs(plants.len(), plants.len(), TOLD, score);
        let row = |(one, other, value): (usize, usize, f64)| {
            let waiting = [one, other]
                .into_iter()
                .filter(|&at| sexes[at] == Some(None));
            LaterRow {
                one: self.registry.code(plants[one]),
                other: self.registry.code(plants[other]),
                waits_for: waiting.map(|at| self.registry.code(plants[at])).collect(),
                chance: 0.5,
                worth: value,
                inbreeding: worth.of(plants[one], plants[other]).1,
            }
        };
        Ok(best.into_iter().map(row).collect())
    }
}
