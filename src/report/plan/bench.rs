//! From the registry to a season of numbers: who may bear pods, whose pollen there is, what each pod would be worth.

use super::super::descent::Descent;
use super::super::flowers::{Spike, spikes};
use super::super::pollen::{Envelope, OwnResults, in_hand};
use super::super::standing::{Presence, SexSeen, presence, sex_seen};
use super::goals::Goals;
use super::merits::Merit;
use crate::kinship::Kinship;
use crate::lineage::{Lineage, PlantRow};
use crate::planning::season::{Demand, Donor, Limits, Lot, Pairing, Plan, Season, SeedParent};
use crate::planning::windows::{Between, Meeting, Window, meeting};
use crate::record::{Day, PollenPlace, Sex};
use crate::registry::Registry;

/// What every part of the plan looks at.
pub(super) struct Ground<'g, 'r, 't> {
    pub registry: &'r Registry<'t>,
    pub lineage: &'r Lineage,
    pub descent: &'g Descent,
    pub kinship: &'g Kinship<'r>,
    pub merit: &'g dyn Merit,
    pub goals: &'g Goals,
    pub today: Day,
}

/// Whose pollen, and which.
#[derive(Clone)]
pub(super) struct PollenOf {
    pub plant: PlantRow,
    /// The envelope; `None` for pollen as it is shed.
    pub lot: Option<String>,
    pub age_days: Option<(i32, i32)>,
    window: Window,
    keeps: u32,
}

/// A season with the plants behind its numbers.
pub(super) struct Bench {
    pub season: Season,
    pub seeds: Vec<PlantRow>,
    pub donors: Vec<PlantRow>,
    pub pollen: Vec<PollenOf>,
    /// When flowers and pollen of each pairing meet.
    pub meets: Vec<Meeting>,
    /// Plants whose sex is only guessed.
    pub guessed: Vec<PlantRow>,
    /// Plants the seedlings' kinship is held against.
    pub kept: Vec<PlantRow>,
}

impl Bench {
    /// The same pods with the freshest pollen there is for them; pollen of one plant is listed freshest first.
    pub fn freshest(&self, plan: &Plan) -> Plan {
        let mut plan = plan.clone();
        let donor = |at: usize| self.season.lots[self.season.pairings[at].lot].donor;
        let seed = |at: usize| self.season.pairings[at].seed;
        for later in 0..self.season.pairings.len() {
            let fresher =
                (0..later).filter(|&at| (seed(at), donor(at)) == (seed(later), donor(later)));
            for at in fresher {
                while let Some(moved) = self.moved(&plan, later, at) {
                    plan = moved;
                }
            }
        }
        plan
    }

    /// The plan with one pod moved to another pairing, if it has one to move and keeps every limit.
    fn moved(&self, plan: &Plan, from: usize, to: usize) -> Option<Plan> {
        let mut pods = plan.pods.clone();
        pods.iter_mut().find(|(at, n)| *at == from && *n > 0)?.1 -= 1;
        match pods.iter_mut().find(|(at, _)| *at == to) {
            Some((_, n)) => *n += 1,
            None => pods.push((to, 1)),
        }
        pods.retain(|(_, n)| *n > 0);
        pods.sort_unstable();
        let moved = self.season.plan(pods);
        self.season.allows(&moved).then_some(moved)
    }
}

/// Farther than any day.
pub(super) const FAR: i32 = 10_000_000;

/// Days no season reaches.
const ALWAYS: Window = Window {
    opens: Between {
        earliest: i32::MIN / 4,
        latest: i32::MIN / 4,
    },
    closes: Between {
        earliest: i32::MAX / 4,
        latest: i32::MAX / 4,
    },
};

impl Ground<'_, '_, '_> {
    /// Lays out the season: spikes that flower within `days_ahead` days, or with `any_time` every plant whose sex is
    /// known as though it would flower.
    pub fn bench(&self, days_ahead: u32, any_time: bool) -> Result<Bench, String> {
        let until = self.today.0.saturating_add(days_ahead as i32);
        let near: Vec<Spike> = spikes(self.registry, self.today)
            .into_iter()
            .filter(|spike| spike.window.opens.earliest <= until)
            .collect();
        let females = self.females(&near, any_time);
        let pollen = self.pollen(&near, any_time);
        let mut donors: Vec<PlantRow> = pollen.iter().map(|pollen| pollen.plant).collect();
        donors.sort_unstable();
        donors.dedup();
        let seeds: Vec<PlantRow> = females.iter().map(|(plant, ..)| *plant).collect();
        let kept = self.kept();
        let mut bench = Bench {
            season: Season::default(),
            guessed: self.guessed(seeds.iter().chain(&donors)),
            seeds,
            donors,
            pollen,
            meets: Vec::new(),
            kept,
        };
        self.fill(&mut bench, &females)?;
        Ok(bench)
    }

    /// Females with their windows and the number of their spikes.
    fn females(&self, near: &[Spike], any_time: bool) -> Vec<(PlantRow, Window, u32)> {
        if any_time {
            let female = |&plant: &PlantRow| self.is(plant, Sex::Female);
            return self
                .registry
                .plants()
                .filter(female)
                .map(|plant| (plant, ALWAYS, 1))
                .collect();
        }
        let mut females: Vec<(PlantRow, Window, u32)> = Vec::new();
        for spike in near.iter().filter(|s| s.planned_sex() == Some(Sex::Female)) {
            match females.iter_mut().find(|(plant, ..)| *plant == spike.plant) {
                Some((_, window, spikes)) => {
                    *window = joined(*window, spike.window);
                    *spikes += 1;
                }
                None => females.push((spike.plant, spike.window, 1)),
            }
        }
        females.sort_by_key(|(plant, ..)| *plant);
        females
    }

    fn is(&self, plant: PlantRow, sex: Sex) -> bool {
        let seen = sex_seen(self.registry, plant);
        let fits = matches!(seen, SexSeen::Certain(of) | SexSeen::Guess(of, _) if of == sex);
        fits && presence(self.registry, plant, self.today) == Presence::Here
    }

    /// Pollen by plant, as shed before stored, the freshest envelope first.
    fn pollen(&self, near: &[Spike], any_time: bool) -> Vec<PollenOf> {
        let shed = |plant, window| PollenOf {
            plant,
            lot: None,
            age_days: None,
            window,
            keeps: self.goals.lasts(Some(PollenPlace::Fresh)).unwrap_or(0),
        };
        let mut pollen: Vec<PollenOf> = if any_time {
            let male = |&plant: &PlantRow| self.is(plant, Sex::Male);
            self.registry
                .plants()
                .filter(male)
                .map(|plant| shed(plant, ALWAYS))
                .collect()
        } else {
            let males = near.iter().filter(|s| s.planned_sex() == Some(Sex::Male));
            males.map(|spike| shed(spike.plant, spike.window)).collect()
        };
        let results = OwnResults::of(self.registry, self.today);
        let envelopes = in_hand(self.registry, self.today, &results);
        pollen.extend(
            envelopes
                .iter()
                .filter_map(|envelope| self.stored(envelope)),
        );
        // Stable: within a plant shed pollen stays first, envelopes stay by age.
        pollen.sort_by_key(|pollen| pollen.plant);
        pollen
    }

    fn stored(&self, envelope: &Envelope) -> Option<PollenOf> {
        let lot = &self.registry.pollen[self.registry.pollen_lot(&envelope.lot)? as usize];
        let collected = lot.collected.map(|text| self.registry.when(text));
        let lasts = self.goals.lasts(lot.stored);
        let closes = match (collected.filter(|when| when.is_bounded()), lasts) {
            (Some(when), Some(days)) => Between {
                earliest: when.first.0.saturating_add(days as i32),
                latest: when.last.0.saturating_add(days as i32),
            },
            _ => ALWAYS.closes,
        };
        Some(PollenOf {
            plant: envelope.plant?,
            lot: Some(envelope.lot.clone()),
            age_days: envelope.age_days,
            window: Window { closes, ..ALWAYS },
            keeps: 0,
        })
    }

    fn guessed<'p>(&self, plants: impl Iterator<Item = &'p PlantRow>) -> Vec<PlantRow> {
        let guess =
            |plant: &&PlantRow| matches!(sex_seen(self.registry, **plant), SexSeen::Guess(..));
        plants.filter(guess).copied().collect()
    }

    /// Founders and kept plants that are here.
    fn kept(&self) -> Vec<PlantRow> {
        let wanted = |&plant: &PlantRow| {
            (self.registry.origin_of(plant).is_none() || self.registry.is_kept(plant))
                && presence(self.registry, plant, self.today) == Presence::Here
        };
        self.registry.plants().filter(wanted).collect()
    }

    fn fill(&self, bench: &mut Bench, females: &[(PlantRow, Window, u32)]) -> Result<(), String> {
        let goals = self.goals;
        let place = |plant: PlantRow| bench.donors.binary_search(&plant).unwrap_or(0);
        let mut season = Season {
            limits: Limits {
                pots: goals.pots.map(u64::from),
                inbreeding: goals.most_inbreeding,
                mean_kinship: goals.most_kinship,
                ..Limits::default()
            },
            ..Season::default()
        };
        for (plant, _, spikes) in females {
            let pods = goals.pods_per_spike.saturating_mul(*spikes);
            season.seed_parents.push(SeedParent {
                pods,
                line: self.line(*plant),
            });
        }
        for &plant in &bench.donors {
            let uses = goals.uses_per_male.unwrap_or(u32::MAX / 4);
            season.donors.push(Donor {
                uses,
                line: self.line(plant),
            });
        }
        for pollen in &bench.pollen {
            season.lots.push(Lot {
                donor: place(pollen.plant),
                uses: goals.uses_per_pollen,
            });
        }
        let worth = self.worth(&bench.seeds, &bench.donors)?;
        let with_kept = self.with_kept(bench);
        for (seed, (plant, window, _)) in females.iter().enumerate() {
            for (lot, pollen) in bench.pollen.iter().enumerate() {
                let meets = meeting(*window, pollen.window, pollen.keeps);
                if *plant == pollen.plant || !meets.possible() {
                    continue;
                }
                let (value, inbreeding) = worth.of(*plant, pollen.plant);
                let mut pairing = Pairing::new(seed, lot, value, goals.seedlings_per_pod);
                pairing.inbreeding = inbreeding;
                let donor = bench.seeds.len() + place(pollen.plant);
                pairing.kinship = 0.5 * (with_kept[seed] + with_kept[donor]);
                pairing.forbidden = goals.never.contains(&(*plant, pollen.plant));
                season.pairings.push(pairing);
                bench.meets.push(from_today(meets, self.today));
            }
        }
        self.demand(&mut season, bench)?;
        self.lines(&mut season)?;
        bench.season = season;
        Ok(())
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
                return Err(format!(
                    "{} × {} must be made, but its flowers and pollen do not meet this season",
                    self.registry.code(seed),
                    self.registry.code(pollen)
                ));
            };
            season.demands.push(Demand {
                seed: pairing.seed,
                donor: season.lots[pairing.lot].donor,
                least: 1,
            });
        }
        Ok(())
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
            let number = self.descent.species.iter().position(|name| name == species);
            let Some(number) = number else {
                return Err(format!(
                    "the line of `{species}` is to be kept, but no founder is of it"
                ));
            };
            season.limits.lines_through_seed.push(number as u32);
            season.limits.lines_through_pollen.push(number as u32);
        }
        Ok(())
    }
}

/// Days gone by are no days to pollinate.
fn from_today(meets: Meeting, today: Day) -> Meeting {
    match meets {
        Meeting::Never => Meeting::Never,
        Meeting::Perhaps(first, last) if first > -FAR => Meeting::Perhaps(first.max(today.0), last),
        Meeting::Surely(first, last) if first > -FAR => Meeting::Surely(first.max(today.0), last),
        always => always,
    }
}

fn joined(one: Window, other: Window) -> Window {
    let first = |a: Between, b: Between| Between {
        earliest: a.earliest.min(b.earliest),
        latest: a.latest.min(b.latest),
    };
    let last = |a: Between, b: Between| Between {
        earliest: a.earliest.max(b.earliest),
        latest: a.latest.max(b.latest),
    };
    Window {
        opens: first(one.opens, other.opens),
        closes: last(one.closes, other.closes),
    }
}
