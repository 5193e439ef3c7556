//! A season with the plants behind its numbers, and the freshest pollen for a plan.

use crate::analysis::plan::made::Made;
use crate::lineage::PlantRow;
use crate::observation::pollen::PollenAge;
use crate::planning::season::{Plan, Season};
use crate::planning::windows::{Meeting, Window};
use std::collections::{BTreeMap, BTreeSet};

/// Whose pollen, and which.
#[derive(Clone)]
pub(crate) struct PollenOf {
    pub plant: PlantRow,
    /// The envelope; `None` for pollen as it is shed.
    pub lot: Option<String>,
    pub age_days: Option<PollenAge>,
    /// What to think of before it is used.
    pub remark: Option<String>,
    pub window: Window,
    /// Days it keeps after its last day.
    pub keeps: u32,
}

/// Pollen as old as this is as old as any, days.
const OLDEST: f64 = 3_650.0;

impl PollenOf {
    /// 0 as it is shed, then by the greatest age it may have, 1 for ten years and more or an age not known.
    pub fn staleness(&self) -> f64 {
        match (&self.lot, self.age_days) {
            (None, _) => 0.0,
            (_, Some((_, Some(most)))) => (f64::from(most) / OLDEST).clamp(0.0, 1.0),
            (_, Some((_, None)) | None) => 1.0,
        }
    }
}

/// A season with the plants behind its numbers.
pub(crate) struct SeasonCandidates {
    pub season: Season,
    pub seeds: Vec<PlantRow>,
    pub donors: Vec<PlantRow>,
    pub pollen: Vec<PollenOf>,
    /// Whether every pair there is became a pairing, and not only those the best plans could use.
    pub every_pair: bool,
    /// When flowers and pollen of each pairing meet.
    pub meets: Vec<Meeting>,
    /// Plants the seedlings' kinship is held against.
    pub kept: Vec<PlantRow>,
    /// What was pollinated before.
    pub made: Made,
}

impl SeasonCandidates {
    /// Leaves out plants and pollen of which no pairing was laid out, so that tables of all parents stay small.
    pub fn without_idle(mut self) -> SeasonCandidates {
        let season = &mut self.season;
        let (seeds, lots) = (season.seed_parents.len(), season.lots.len());
        let seed = Places::of(seeds, season.pairings.iter().map(|pairing| pairing.seed));
        let lot = Places::of(lots, season.pairings.iter().map(|pairing| pairing.lot));
        lot.keep(&mut season.lots);
        let of_lots = season.lots.iter().map(|lot| lot.donor);
        let donor = Places::of(season.donors.len(), of_lots);
        seed.keep(&mut season.seed_parents);
        donor.keep(&mut season.donors);
        seed.keep(&mut self.seeds);
        donor.keep(&mut self.donors);
        lot.keep(&mut self.pollen);
        for pairing in &mut season.pairings {
            (pairing.seed, pairing.lot) = (seed.new[pairing.seed], lot.new[pairing.lot]);
        }
        for lot in &mut season.lots {
            lot.donor = donor.new[lot.donor];
        }
        for demand in &mut season.demands {
            (demand.seed, demand.donor) = (seed.new[demand.seed], donor.new[demand.donor]);
        }
        self
    }

    /// Seed parent and pollen parent of a pairing.
    pub fn parents(&self, pairing: usize) -> [PlantRow; 2] {
        let pairing = &self.season.pairings[pairing];
        [self.seeds[pairing.seed], self.pollen[pairing.lot].plant]
    }

    /// The parents of a plan, each once, in its order.
    pub fn parents_of(&self, plan: &Plan) -> Vec<PlantRow> {
        let mut seen = BTreeSet::new();
        let parents = plan.pods.iter().flat_map(|&(at, _)| self.parents(at));
        parents.filter(|&plant| seen.insert(plant)).collect()
    }

    /// The same pods with the freshest pollen there is for them, pollen that surely meets the flowers first; pollen of one
    /// plant is listed freshest first.
    pub fn freshest(&self, plan: &Plan) -> Plan {
        let mut plan = plan.clone();
        let parents = |at: usize| {
            let pairing = &self.season.pairings[at];
            (pairing.seed, self.season.lots[pairing.lot].donor)
        };
        let used: BTreeSet<(usize, usize)> = plan.pods.iter().map(|&(at, _)| parents(at)).collect();
        let mut of_pair: BTreeMap<(usize, usize), Vec<usize>> = BTreeMap::new();
        for at in (0..self.season.pairings.len()).filter(|&at| used.contains(&parents(at))) {
            of_pair.entry(parents(at)).or_default().push(at);
        }
        for pairings in of_pair.values_mut() {
            // Stable: within each kind the freshest stays first.
            pairings.sort_by_key(|&at| self.season.pairings[at].may_not_meet);
            for (place, &later) in pairings.iter().enumerate() {
                for &at in &pairings[..place] {
                    while let Some(moved) = self.moved(&plan, later, at) {
                        plan = moved;
                    }
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

/// New places of things of which some are left out.
struct Places {
    kept: Vec<bool>,
    new: Vec<usize>,
}

impl Places {
    fn of(count: usize, used: impl Iterator<Item = usize>) -> Self {
        let mut kept = vec![false; count];
        used.for_each(|at| kept[at] = true);
        let mut next = 0;
        let place = |&kept: &bool| {
            let place = next;
            next += usize::from(kept);
            place
        };
        let new = kept.iter().map(place).collect();
        Self { kept, new }
    }

    fn keep<T>(&self, things: &mut Vec<T>) {
        let mut kept = self.kept.iter();
        things.retain(|_| *kept.next().expect("one mark a thing"));
    }
}
