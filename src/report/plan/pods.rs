//! The pods a season could make: what each would be worth, what limits them, what is demanded.

use super::super::words::listed;
use super::bench::Bench;
use super::days::from_today;
use super::ground::{Female, Ground};
use super::pollen_of::PollenOf;
use crate::lineage::PlantRow;
use crate::planning::season::{Demand, Donor, Limits, Lot, Pairing, Season, SeedParent};
use crate::planning::windows::meeting;
use crate::record::Sex;
use std::collections::BTreeMap;

impl Ground<'_, '_, '_> {
    /// Lays out everything but the plants.
    pub(super) fn fill(&self, bench: &mut Bench, females: &[Female]) -> Result<(), String> {
        let mut season = self.parents(bench, females);
        let donors: BTreeMap<PlantRow, usize> = bench.donors.iter().copied().zip(0..).collect();
        let worth = self.worth(&bench.seeds, &bench.donors)?;
        let with_kept = self.with_kept(bench);
        for (seed, (plant, window, _)) in females.iter().enumerate() {
            for (lot, pollen) in bench.pollen.iter().enumerate() {
                let meets = meeting(*window, pollen.window, pollen.keeps);
                if *plant == pollen.plant || !meets.possible() {
                    continue;
                }
                let (value, inbreeding) = worth.of(*plant, pollen.plant);
                let donor = bench.seeds.len() + donors[&pollen.plant];
                season.pairings.push(Pairing {
                    inbreeding,
                    kinship: 0.5 * (with_kept[seed] + with_kept[donor]),
                    staleness: pollen.staleness(),
                    forbidden: self.goals.never.contains(&(*plant, pollen.plant)),
                    ..Pairing::new(seed, lot, value, self.goals.seedlings_per_pod)
                });
                bench.meets.push(from_today(meets, self.today));
            }
        }
        self.demand(&mut season, bench)?;
        self.lines(&mut season)?;
        bench.season = season;
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
        let parents: Vec<PlantRow> = bench.seeds.iter().chain(&bench.donors).copied().collect();
        if bench.kept.is_empty() {
            return vec![0.0; parents.len()];
        }
        let table = self.kinship.table_between(&parents, &bench.kept);
        let mean = |row: usize| table.row(row).iter().sum::<f64>() / bench.kept.len() as f64;
        (0..parents.len()).map(mean).collect()
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

    /// The species a plant is wholly of.
    fn line(&self, plant: PlantRow) -> Option<u32> {
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
