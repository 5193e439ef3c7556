//! Why there is nothing to pollinate.

use crate::analysis::plan::candidates::SeasonCandidates;
use crate::analysis::plan::context::PlanContext;
use crate::planning::season::{Pairing, Season};
use crate::record::Sex;

/// Why there is nothing to pollinate; where flowers are wanting, whether every plant whose sex was seen or guessed was taken to flower.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Idle {
    /// No plant is on record at all.
    NoPlant,
    /// No plant here is on record as female.
    NoneFemale,
    /// None of those that are is in flower.
    NoFemale,
    /// There is no pollen, and no plant here is on record as male.
    NoneMale,
    /// There is no pollen, and none of those that are male is in flower.
    NoPollen,
    /// Flowers and pollen miss each other.
    NothingMeets {
        /// Planned as though all flowered.
        any_time: bool,
    },
    /// Every pair is above the cap on inbreeding or forbidden.
    RuledOut,
    /// Every pair is above the cap on kinship.
    TooNear,
    /// Every spike that could be dusted bears the pods it may already.
    SpikesFull,
    /// Not even one pod fits.
    TooFewPots {
        /// Pots a pod takes.
        needed: u32,
        /// Pots there are.
        pots: u32,
        /// Of these, those that what was pollinated before takes.
        taken: u32,
    },
    /// No pod allowed is worth anything.
    WorthNothing,
}

impl PlanContext<'_, '_, '_> {
    /// The first reason that holds.
    pub(crate) fn idle(&self, candidates: &SeasonCandidates, any_time: bool) -> Idle {
        let season = &candidates.season;
        let needed = self.goals.seedlings_per_pod;
        let taken = candidates.made.pots(needed);
        let short = |pots: &u32| pots.saturating_sub(taken) < needed;
        let short = self.goals.pots.filter(short);
        let full = |pairing: &Pairing| season.seed_parents[pairing.seed].pods == 0;
        let none_is = |sex| !self.registry.plants().any(|plant| self.is(plant, sex));
        if self.registry.plants().next().is_none() {
            Idle::NoPlant
        } else if candidates.seeds.is_empty() {
            match none_is(Sex::Female) {
                true => Idle::NoneFemale,
                false => Idle::NoFemale,
            }
        } else if candidates.pollen.is_empty() {
            match none_is(Sex::Male) {
                true => Idle::NoneMale,
                false => Idle::NoPollen,
            }
        } else if season.pairings.is_empty() {
            Idle::NothingMeets { any_time }
        } else if !season.pairings.iter().any(|pairing| season.open(pairing)) {
            Idle::RuledOut
        } else if self.all_too_near(season) {
            Idle::TooNear
        } else if season.pairings.iter().all(full) {
            Idle::SpikesFull
        } else if let Some(pots) = short {
            Idle::TooFewPots {
                needed,
                pots,
                taken: taken.min(pots),
            }
        } else {
            Idle::WorthNothing
        }
    }

    /// Whether every pair that is open lies above the cap on mean kinship, so that no mixture of them can keep it.
    fn all_too_near(&self, season: &Season) -> bool {
        let cap = self.goals.most_kinship.unwrap_or(1.0);
        let open = season
            .pairings
            .iter()
            .filter(|pairing| season.open(pairing));
        open.map(|pairing| pairing.kinship)
            .fold(f64::INFINITY, f64::min)
            > cap
    }
}
