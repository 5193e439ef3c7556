//! A season with the plants behind its numbers, and the freshest pollen for a plan.

use super::pollen_of::PollenOf;
use crate::lineage::PlantRow;
use crate::planning::season::{Plan, Season};
use crate::planning::windows::Meeting;

/// A season with the plants behind its numbers.
pub(super) struct Bench {
    pub season: Season,
    pub seeds: Vec<PlantRow>,
    pub donors: Vec<PlantRow>,
    pub pollen: Vec<PollenOf>,
    /// When flowers and pollen of each pairing meet.
    pub meets: Vec<Meeting>,
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
