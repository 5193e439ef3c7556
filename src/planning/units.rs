//! A season in whole numbers, so that bounds and proofs carry no rounding.
//!
//! Values become multiples of a fine unit (the largest value is about 2³⁸ of them); a hair is taken off for inbreeding
//! less where flowers and pollen may not meet or a sex was only guessed, and a hundredth for old pollen, so that of plans
//! worth the same the less inbred comes first, then the surer, then the fresher. Limits that a network of arcs cannot hold (unequal pots, mean kinship)
//! become *loads* with a capacity.

use super::season::{Demand, Pairing, Season};
use super::spike_sets::{SpikeSet, SpikeSets};

/// Plans whose values differ by less than this part of the best pod's value count as worth the same.
pub(super) const TIE: f64 = 1e-6;

/// Flowers and pollen that may not meet against inbreeding, where all else is the same: more than two guessed sexes.
const MAY_NOT_MEET: f64 = 0.12;
/// A guessed sex of one parent against inbreeding, where all else is the same.
const GUESSED_SEX: f64 = 0.05;
/// Old pollen against inbreeding, where all else is the same.
const OLD_POLLEN: f64 = 0.01;

/// Bits of the largest value.
const VALUE_BITS: i32 = 38;
/// Bits of kinship loads: 1 is 2⁴⁰.
pub(super) const KINSHIP_BITS: i32 = 40;
/// Allowance for rounding when means are held against a cap, as in [`Season::allows`].
const ALLOWANCE: f64 = 1e-12;

/// One pairing that may get pods.
#[derive(Clone, Debug)]
pub(super) struct Choice {
    /// Its index in the season.
    pub pairing: usize,
    pub seed: usize,
    pub lot: usize,
    pub value: i64,
    /// What one pod takes of each load.
    pub loads: Vec<i64>,
    pub most: u32,
    /// Index of the demand its pods go toward.
    pub demand: Option<usize>,
    /// The sets of spikes its pods count in, ascending.
    pub spikes: Vec<usize>,
    /// The set through which the network reaches it; a pod that is demanded comes another way.
    pub through: Option<usize>,
}

/// A season in whole numbers.
#[derive(Clone, Debug)]
pub(super) struct IntegerModel {
    pub choices: Vec<Choice>,
    /// Choices in falling value, ties in their order.
    pub by_value: Vec<usize>,
    /// Fewest pods of each demand, and whose seed parent it is.
    pub demands: Vec<Demand>,
    pub seed_pods: Vec<u32>,
    pub spike_sets: Vec<SpikeSet>,
    pub lot_uses: Vec<u32>,
    pub lot_donor: Vec<usize>,
    pub donor_uses: Vec<u32>,
    /// For each seed parent the place of its line among the lines wanted, if it has one.
    pub seed_line: Vec<Option<usize>>,
    pub donor_line: Vec<Option<usize>>,
    pub seed_lines: usize,
    pub donor_lines: usize,
    /// Whether pods take unlike numbers of pots, so that pots are the first load.
    pub unlike: bool,
    /// Capacity of each load.
    pub capacities: Vec<i64>,
    pub fewest: u32,
    pub most: u32,
    /// Units per unit of value.
    pub scale: f64,
    /// Units within which plans count as worth the same.
    pub tie: i64,
}

impl IntegerModel {
    pub fn of(season: &Season) -> Self {
        let open: Vec<usize> = (0..season.pairings.len())
            .filter(|&at| season.open(&season.pairings[at]) && season.pairings[at].most > 0)
            .collect();
        let largest = open
            .iter()
            .map(|&at| season.pairings[at].value.abs())
            .fold(0.0, f64::max);
        let largest = if largest > 0.0 { largest } else { 1.0 };
        let scale = libm::ldexp(1.0, VALUE_BITS - libm::frexp(largest).1);
        let leanest = open.iter().map(|&at| season.pairings[at].pots).min();
        let most = season.most_pods(leanest.unwrap_or(0));
        // All together stay within half of what counts as worth the same.
        let all = 1.0 + MAY_NOT_MEET + 2.0 * GUESSED_SEX + OLD_POLLEN;
        let hair = 0.5 * TIE * largest / all / f64::from(most.max(1));
        let loads = Loads::of(season, &open);
        let spikes = SpikeSets::of(season);
        let choices = open.iter().map(|&at| {
            let pairing = &season.pairings[at];
            let demand = season.demand_on(pairing);
            Choice {
                pairing: at,
                seed: pairing.seed,
                lot: pairing.lot,
                value: libm::round((pairing.value - hair * drawbacks(pairing)) * scale) as i64,
                loads: loads.of_pod(pairing.pots, pairing.kinship),
                most: pairing.most.min(season.seed_parents[pairing.seed].pods),
                demand,
                spikes: spikes.of_pairing(at).to_vec(),
                through: spikes.innermost(at).filter(|_| demand.is_none()),
            }
        });
        let limits = &season.limits;
        let (seed_line, donor_line) = season.places_of_lines();
        let choices: Vec<Choice> = choices.collect();
        Self {
            by_value: by_value(&choices),
            choices,
            demands: once_each(&season.demands),
            seed_pods: season.seed_parents.iter().map(|s| s.pods).collect(),
            spike_sets: spikes.sets,
            lot_uses: season.lots.iter().map(|l| l.uses).collect(),
            lot_donor: season.lots.iter().map(|l| l.donor).collect(),
            donor_uses: season.donors.iter().map(|d| d.uses).collect(),
            seed_line,
            donor_line,
            seed_lines: limits.lines_through_seed.len(),
            donor_lines: limits.lines_through_pollen.len(),
            unlike: loads.pots.is_some(),
            capacities: loads.capacities(),
            fewest: limits.fewest_pods,
            most,
            scale,
            tie: libm::ceil(TIE * largest * scale) as i64,
        }
    }

    /// Pods a plan gives each choice, as a list for the season.
    pub fn pods(&self, sent: &[u32]) -> Vec<(usize, u32)> {
        let given = self.choices.iter().zip(sent).filter(|(_, n)| **n > 0);
        given.map(|(choice, &n)| (choice.pairing, n)).collect()
    }

    pub fn value(&self, sent: &[u32]) -> i64 {
        self.choices
            .iter()
            .zip(sent)
            .map(|(choice, &n)| choice.value * i64::from(n))
            .sum()
    }

    /// What a plan leaves of a load's capacity; negative when it takes too much.
    pub fn room(&self, load: usize, sent: &[u32]) -> i128 {
        let taken = self.choices.iter().zip(sent);
        let taken = taken.map(|(choice, &n)| i128::from(choice.loads[load]) * i128::from(n));
        i128::from(self.capacities[load]) - taken.sum::<i128>()
    }

    /// The load that is pots, where pods take unlike numbers of them.
    pub fn pots_load(&self) -> Option<usize> {
        self.unlike.then_some(0)
    }

    /// The load that is kinship beyond the cap on its mean.
    pub fn kinship_load(&self) -> Option<usize> {
        self.capacities
            .len()
            .checked_sub(1 + usize::from(self.unlike))?;
        Some(usize::from(self.unlike))
    }

    /// Whether a plan has more pods than the demand needs that a choice goes toward.
    pub fn spared(&self, sent: &[u32], at: usize) -> bool {
        let Some(demand) = self.choices[at].demand else {
            return true;
        };
        let toward = self.choices.iter().zip(sent);
        let toward = toward.filter(|(choice, _)| choice.demand == Some(demand));
        toward.map(|(_, &n)| n).sum::<u32>() > self.demands[demand].least
    }

    /// What a plan leaves of each set of spikes; negative when they bear too many pods.
    pub fn room_on_spikes(&self, sent: &[u32]) -> Vec<i64> {
        let most = |set: &SpikeSet| i64::from(set.most);
        let mut room: Vec<i64> = self.spike_sets.iter().map(most).collect();
        if !room.is_empty() {
            for (choice, &n) in self.choices.iter().zip(sent) {
                choice
                    .spikes
                    .iter()
                    .for_each(|set| room[*set] -= i64::from(n));
            }
        }
        room
    }

    /// A set of spikes with too many pods.
    pub fn crowded_spikes(&self, sent: &[u32]) -> Option<usize> {
        self.room_on_spikes(sent).iter().position(|room| *room < 0)
    }

    pub fn fits(&self, sent: &[u32]) -> bool {
        (0..self.capacities.len()).all(|load| self.room(load, sent) >= 0)
            && self.crowded_spikes(sent).is_none()
    }
}

pub(super) fn by_value(choices: &[Choice]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..choices.len()).collect();
    // Stable: choices of the same value stay in their order.
    order.sort_by_key(|&at| std::cmp::Reverse(choices[at].value));
    order
}

/// What speaks against a pairing where all else is the same, 0 to 1 and a little more.
fn drawbacks(pairing: &Pairing) -> f64 {
    let unsure = MAY_NOT_MEET * f64::from(u8::from(pairing.may_not_meet));
    let guessed = GUESSED_SEX * f64::from(pairing.guessed_sexes);
    pairing.inbreeding + unsure + guessed + OLD_POLLEN * pairing.staleness
}

/// The demands with each pair of plants counted once: of several on one pair the first asks for the most.
fn once_each(demands: &[Demand]) -> Vec<Demand> {
    let mut once = demands.to_vec();
    for at in 0..once.len() {
        let same =
            |other: &Demand| (other.seed, other.donor) == (demands[at].seed, demands[at].donor);
        let most = demands
            .iter()
            .filter(|other| same(other))
            .map(|other| other.least)
            .max();
        let first = !demands[..at].iter().any(same);
        once[at].least = most.filter(|_| first).unwrap_or(0);
    }
    once
}

/// The limits that are kept as loads.
struct Loads {
    pots: Option<u64>,
    kinship: Option<f64>,
}

impl Loads {
    fn of(season: &Season, open: &[usize]) -> Self {
        let pots = |at: &usize| season.pairings[*at].pots;
        // Pods of one size are limited by their number alone.
        let unequal = open.windows(2).any(|pair| pots(&pair[0]) != pots(&pair[1]));
        Self {
            pots: season.limits.pots.filter(|_| unequal),
            kinship: season.limits.mean_kinship,
        }
    }

    fn capacities(&self) -> Vec<i64> {
        let pots = self
            .pots
            .map(|pots| i64::try_from(pots).unwrap_or(i64::MAX));
        pots.into_iter().chain(self.kinship.map(|_| 0)).collect()
    }

    fn of_pod(&self, pots: u32, kinship: f64) -> Vec<i64> {
        let beyond = self
            .kinship
            .map(|cap| libm::ceil(libm::ldexp(kinship - cap - ALLOWANCE, KINSHIP_BITS)) as i64);
        self.pots
            .map(|_| i64::from(pots))
            .into_iter()
            .chain(beyond)
            .collect()
    }
}
