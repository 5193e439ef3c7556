//! The pods a season could make: what each would be worth, what limits them, what is demanded.
//!
//! A registry may hold many more pairs than any plan could use; they are worked out one donor at a time and only those
//! that can matter become pairings of the season ([`crate::planning::sift`]).

use crate::analysis::plan::bench::Bench;
use crate::analysis::plan::days::from_today;
use crate::analysis::plan::field::Field;
use crate::analysis::plan::ground::{Female, Ground};
use crate::analysis::plan::pollen_of::PollenOf;
use crate::analysis::plan::solve::LOOKED_AT;
use crate::lineage::PlantRow;
use crate::planning::season::{Demand, Donor, Limits, Lot, Pairing, Season, SeedParent};
use crate::record::Sex;
use crate::wording::listed;
use std::collections::BTreeMap;

/// Pods planned at most: more than anyone pollinates in a season.
pub(crate) const MOST_PODS: u32 = 1_000;

impl Ground<'_, '_, '_> {
    /// Lays out everything but the plants.
    pub(crate) fn fill(&self, bench: &mut Bench, females: &[Female]) -> Result<(), String> {
        let mut season = self.parents(bench, females);
        self.lines(&mut season)?;
        let pods = season.most_pods(self.goals.seedlings_per_pod);
        if pods > MOST_PODS {
            season.limits.most_pods = Some(MOST_PODS);
        }
        let with_kept = self.with_kept(bench);
        let field = Field::of(self, (bench, females), &with_kept)?;
        let chosen = field.chosen(&season, pods.clamp(1, MOST_PODS), LOOKED_AT);
        let mut meets = Vec::new();
        for pair in &chosen.pairs {
            let (seed, donor) = (pair.seed as usize, pair.donor as usize);
            for (lot, meeting) in field.meetings(seed, donor) {
                season.pairings.push(Pairing {
                    inbreeding: pair.inbreeding,
                    kinship: 0.5 * (with_kept[seed] + with_kept[bench.seeds.len() + donor]),
                    staleness: bench.pollen[lot].staleness(),
                    forbidden: field.is_ruled_out(seed, donor),
                    ..Pairing::new(seed, lot, pair.value, self.goals.seedlings_per_pod)
                });
                meets.push(from_today(meeting, self.today));
            }
        }
        season.chosen_at = chosen.prices;
        self.demand(&mut season, bench)?;
        (bench.season, bench.meets) = (season, meets);
        bench.every_pair = chosen.every;
        Ok(())
    }

    /// The season's parents and pollen with their limits, without pairings.
    fn parents(&self, bench: &Bench, females: &[Female]) -> Season {
        let goals = self.goals;
        let donors: BTreeMap<PlantRow, usize> = bench.donors.iter().copied().zip(0..).collect();
        let seed_parent = |(plant, _, spikes): &Female| SeedParent {
            pods: goals.pods_per_spike.saturating_mul(*spikes),
            line: self.line(*plant),
        };
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
            donors: bench.donors.iter().map(donor).collect(),
            lots: bench.pollen.iter().map(lot).collect(),
            limits: Limits {
                pots: goals.pots.map(u64::from),
                inbreeding: goals.most_inbreeding,
                mean_kinship: goals.most_kinship,
                ..Limits::default()
            },
            ..Season::default()
        }
    }

    /// Mean kinship of each seed parent, then each donor, with what is kept; 0 when nothing is.
    fn with_kept(&self, bench: &Bench) -> Vec<f64> {
        let parents = bench.seeds.iter().chain(&bench.donors);
        if bench.kept.is_empty() {
            return parents.map(|_| 0.0).collect();
        }
        let mut marks = vec![0.0; self.lineage.pedigree.len()];
        let part = 0.5 / bench.kept.len() as f64;
        bench
            .kept
            .iter()
            .for_each(|plant| marks[plant.index()] = part);
        let means = self.kinship.product(&marks);
        parents.map(|plant| means[plant.index()]).collect()
    }

    /// Pollinations that must be made get at least one pod, of whichever pollen of that plant.
    fn demand(&self, season: &mut Season, bench: &Bench) -> Result<(), String> {
        for &(seed, pollen) in &self.goals.must {
            let wanted = |pairing: &&Pairing| {
                bench.seeds[pairing.seed] == seed && bench.pollen[pairing.lot].plant == pollen
            };
            let Some(pairing) = season.pairings.iter().find(wanted) else {
                return Err(self.why_not(bench, seed, pollen));
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
    fn why_not(&self, bench: &Bench, seed: PlantRow, pollen: PlantRow) -> String {
        let [mother, father] = [seed, pollen].map(|plant| self.registry.code(plant));
        let why = if seed == pollen {
            "a plant bears one sex only".to_owned()
        } else if self.is(seed, Sex::Male) && self.is(pollen, Sex::Female) {
            format!("{mother} is male and {father} female: swap them")
        } else if self.is(seed, Sex::Male) {
            format!("{mother} is male")
        } else if self.is(pollen, Sex::Female) {
            format!("{father} is female")
        } else if !bench.seeds.contains(&seed) {
            format!("{mother} is not among the females that flower")
        } else if !bench.donors.contains(&pollen) {
            format!("of {father} there is neither pollen in hand nor a male in flower")
        } else {
            "its flowers and pollen do not meet this season".to_owned()
        };
        format!("{mother} × {father} must be made, but {why}")
    }

    /// The species a plant is wholly of, where the line of any is to be kept.
    fn line(&self, plant: PlantRow) -> Option<u32> {
        if self.goals.keep_lines.is_empty() {
            return None;
        }
        let shares = self.descent.shares_of(self.lineage, plant).ok()?;
        match shares[..] {
            [(crate::ancestry::Part::Species(species), ref share)] if share.is_whole() => {
                Some(species)
            }
            _ => None,
        }
    }

    fn lines(&self, season: &mut Season) -> Result<(), String> {
        for species in &self.goals.keep_lines {
            let epithet = ["Nepenthes ", "N. "]
                .iter()
                .find_map(|genus| species.strip_prefix(genus))
                .unwrap_or(species);
            let number = self.descent.species.iter().position(|name| name == epithet);
            let Some(number) = number else {
                return Err(format!(
                    "the line of `{species}` is to be kept, but no founder is of it\nthe founders are of {}",
                    listed(&self.descent.species)
                ));
            };
            season.limits.lines_through_seed.push(number as u32);
            season.limits.lines_through_pollen.push(number as u32);
        }
        Ok(())
    }
}
