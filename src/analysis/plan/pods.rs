//! The pods a season could make: what each would be worth, what limits them, what is demanded.
//!
//! A registry may hold many more pairs than any plan could use; they are worked out one donor at a time and only those
//! that can matter become pairings of the season ([`crate::planning::sift`]).

use crate::analysis::plan::candidates::{PollenOf, SeasonCandidates};
use crate::analysis::plan::context::{Female, PlanContext};
use crate::analysis::plan::error::{PlanError, WhyNot};
use crate::analysis::plan::field::Field;
use crate::analysis::plan::made::Made;
use crate::analysis::plan::solve::LOOKED_AT;
use crate::lineage::PlantRow;
use crate::planning::season::{Demand, Donor, Limits, Lot, Pairing, Season, SeedParent};
use crate::planning::shared_spikes::{MetSpikes, SharedSpikes};
use crate::planning::windows::Meeting;
use crate::record::Sex;
use std::collections::BTreeMap;

/// Pods planned at most: more than anyone pollinates in a season.
pub(crate) const MOST_PODS: u32 = 1_000;

impl PlanContext<'_, '_, '_> {
    /// Lays out everything but the plants.
    pub(crate) fn fill(
        &self,
        candidates: &mut SeasonCandidates,
        females: &[Female],
    ) -> Result<(), PlanError> {
        let mut season = self.parents(candidates, females);
        self.lines(&mut season, &candidates.made)?;
        let pods = season.most_pods(self.goals.seedlings_per_pod);
        if pods > MOST_PODS {
            season.limits.most_pods = Some(MOST_PODS);
        }
        let with_kept = self.with_kept(candidates);
        let field = Field::of(self, (candidates, females), &with_kept)?;
        let chosen = field.chosen(&season, pods.clamp(1, MOST_PODS), LOOKED_AT);
        let mut meets = Vec::new();
        let mut met_spikes: BTreeMap<usize, Vec<MetSpikes>> = BTreeMap::new();
        for pair in &chosen.pairs {
            let (seed, donor) = (pair.seed as usize, pair.donor as usize);
            // A pod worth less than none is not planned, but for one that must be made or may keep a line.
            let asked = field.is_demanded(seed, donor) || !self.goals.keep_lines.is_empty();
            let wanted = asked || pair.value >= 0.0;
            for (lot, meeting, spikes) in field.meetings(seed, donor) {
                // A spike that never meets this pollen bears no pod of it.
                let most = spikes
                    .iter()
                    .map(|&spike| females[seed].places[spike])
                    .sum();
                let place = (season.pairings.len(), spikes);
                met_spikes.entry(seed).or_default().push(place);
                season.pairings.push(Pairing {
                    most: if wanted { most } else { 0 },
                    inbreeding: pair.inbreeding,
                    kinship: 0.5 * (with_kept[seed] + with_kept[candidates.seeds.len() + donor]),
                    may_not_meet: matches!(meeting, Meeting::Perhaps(..)),
                    guessed_sexes: self
                        .guessed_sexes([candidates.seeds[seed], candidates.pollen[lot].plant]),
                    staleness: candidates.pollen[lot].staleness(),
                    forbidden: field.is_ruled_out(seed, donor),
                    ..Pairing::new(seed, lot, pair.value, self.goals.seedlings_per_pod)
                });
                meets.push(meeting);
            }
        }
        for (seed, met) in met_spikes {
            let shared = SharedSpikes::of_parent(&met, &females[seed].places);
            season.shared_spikes.extend(shared);
        }
        season.chosen_at = chosen.prices;
        self.demand(&mut season, candidates)?;
        (candidates.season, candidates.meets) = (season, meets);
        candidates.every_pair = chosen.every;
        Ok(())
    }

    /// The season's parents and pollen with their limits, without pairings.
    fn parents(&self, candidates: &SeasonCandidates, females: &[Female]) -> Season {
        let goals = self.goals;
        let donors: BTreeMap<PlantRow, usize> =
            candidates.donors.iter().copied().zip(0..).collect();
        let seed_parent = |female: &Female| SeedParent {
            pods: female.places.iter().sum(),
            line: self.line(female.plant),
        };
        let taken = candidates.made.pots(goals.seedlings_per_pod);
        let donor = |&plant: &PlantRow| Donor {
            uses: goals.uses_per_male.unwrap_or(u32::MAX / 4),
            line: self.line(plant),
        };
        let lot = |pollen: &PollenOf| Lot {
            donor: donors[&pollen.plant],
            uses: goals.uses_per_pollen,
        };
        Season {
            seed_parents: females.iter().map(seed_parent).collect(),
            donors: candidates.donors.iter().map(donor).collect(),
            lots: candidates.pollen.iter().map(lot).collect(),
            limits: Limits {
                pots: goals.pots.map(|pots| u64::from(pots.saturating_sub(taken))),
                inbreeding: goals.most_inbreeding,
                mean_kinship: goals.most_kinship,
                ..Limits::default()
            },
            ..Season::default()
        }
    }

    /// How many of two parents are of a sex that was only guessed.
    fn guessed_sexes(&self, parents: [PlantRow; 2]) -> u32 {
        let guessed = parents.into_iter().filter(|&plant| self.is_guessed(plant));
        guessed.count() as u32
    }

    /// Mean kinship of each seed parent, then each donor, with what is kept; 0 when nothing is.
    fn with_kept(&self, candidates: &SeasonCandidates) -> Vec<f64> {
        let parents = candidates.seeds.iter().chain(&candidates.donors);
        if candidates.kept.is_empty() {
            return parents.map(|_| 0.0).collect();
        }
        let mut marks = vec![0.0; self.context.lineage().pedigree.len()];
        let part = 0.5 / candidates.kept.len() as f64;
        candidates
            .kept
            .iter()
            .for_each(|plant| marks[plant.index()] = part);
        let means = self.kinship.product(&marks);
        parents.map(|plant| means[plant.index()]).collect()
    }

    /// Pollinations that must be made get at least one pod, of whichever pollen of that plant.
    fn demand(&self, season: &mut Season, candidates: &SeasonCandidates) -> Result<(), PlanError> {
        let must = self.goals.must.iter();
        for &(seed, pollen) in must.filter(|pair| !candidates.made.has(**pair)) {
            let wanted = |pairing: &&Pairing| {
                candidates.seeds[pairing.seed] == seed
                    && candidates.pollen[pairing.lot].plant == pollen
            };
            let Some(pairing) = season.pairings.iter().find(wanted) else {
                return Err(PlanError::Must {
                    pair: [seed, pollen].map(|plant| self.registry.code(plant)),
                    why: self.why_not(candidates, seed, pollen),
                });
            };
            season.demands.push(Demand {
                seed: pairing.seed,
                donor: season.lots[pairing.lot].donor,
                least: 1,
            });
        }
        Ok(())
    }

    /// Why a pair that must be made cannot.
    fn why_not(&self, candidates: &SeasonCandidates, seed: PlantRow, pollen: PlantRow) -> WhyNot {
        if seed == pollen {
            return WhyNot::OnePlant;
        }
        match (self.is(seed, Sex::Male), self.is(pollen, Sex::Female)) {
            (true, true) => WhyNot::Swapped,
            (true, false) => WhyNot::SeedIsMale,
            (false, true) => WhyNot::PollenIsFemale,
            _ if !candidates.seeds.contains(&seed) => WhyNot::NoFlowers,
            _ if !candidates.donors.contains(&pollen) => WhyNot::NoPollen,
            _ => WhyNot::NeverMeet,
        }
    }

    /// The species a plant is wholly of, where the line of any is to be kept.
    fn line(&self, plant: PlantRow) -> Option<u32> {
        if self.goals.keep_lines.is_empty() {
            return None;
        }
        let shares = self
            .context
            .descent()
            .shares_of(self.context.lineage(), plant)
            .ok()?;
        match shares[..] {
            [(crate::ancestry::Part::Species(species), ref share)] if share.is_integer() => {
                Some(species)
            }
            _ => None,
        }
    }

    /// The lines that need a pod through a seed parent and one through a pollen parent, where none was made before.
    fn lines(&self, season: &mut Season, made: &Made) -> Result<(), PlanError> {
        for species in &self.goals.keep_lines {
            let epithet = ["Nepenthes ", "N. "]
                .iter()
                .find_map(|genus| species.strip_prefix(genus))
                .unwrap_or(species);
            let number = self
                .context
                .descent()
                .species
                .iter()
                .position(|name| name == epithet);
            let Some(number) = number else {
                return Err(PlanError::NoFounder {
                    species: species.clone(),
                    founders: self.context.descent().species.clone(),
                });
            };
            let number = number as u32;
            let is_of_line = |plant| self.line(plant) == Some(number);
            let limits = &mut season.limits;
            if !made.pairs().iter().any(|(seed, _)| is_of_line(*seed)) {
                limits.lines_through_seed.push(number);
            }
            if !made.pairs().iter().any(|(_, pollen)| is_of_line(*pollen)) {
                limits.lines_through_pollen.push(number);
            }
        }
        Ok(())
    }
}
