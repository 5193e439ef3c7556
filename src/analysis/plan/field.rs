//! All pairs a season could make, worked out one donor at a time, and which of them become pairings.

use crate::analysis::plan::candidates::{PollenOf, SeasonCandidates};
use crate::analysis::plan::context::{Female, PlanContext};
use crate::analysis::plan::worth::Worth;
use crate::kinship::Kinship;
use crate::lineage::{PedigreeTooComplex, PlantRow};
use crate::planning::season::Season;
use crate::planning::sift::{Pair, Sift, Wanted};
use crate::planning::windows::{Meeting, Window, meeting};
use std::collections::BTreeSet;

/// Pairs up to which every one becomes a pairing.
const EVERY_PAIR: usize = 4_096;
/// The same under a cap on mean kinship, which no pair keeps or breaks alone.
const EVERY_PAIR_UNDER_A_CAP: usize = 40_000;
/// Prices of kinship under which pairings are chosen where there are more, in spreads of merit over spreads of kinship.
const PRICES: [f64; 5] = [0.0, 0.25, 1.0, 4.0, 16.0];
/// Donors between two questions whether any seed parent could still want a later one.
const DONORS_BETWEEN: usize = 64;

/// Seed parents and donors with what their pairs need.
pub(crate) struct Field<'f> {
    kinship: &'f Kinship<'f>,
    worth: Worth<'f>,
    most_inbreeding: Option<f64>,
    seeds: &'f [PlantRow],
    donors: &'f [PlantRow],
    /// Of each seed parent the window of each spike.
    spikes: Vec<Vec<Window>>,
    pollen: &'f [PollenOf],
    lots_of: Vec<Vec<usize>>,
    ruled_out: BTreeSet<(PlantRow, PlantRow)>,
    demanded: BTreeSet<(PlantRow, PlantRow)>,
    /// Mean kinship of seed parents, then donors, with what is kept.
    with_kept: &'f [f64],
}

/// What was chosen, and under which prices of kinship nothing better was left out; no prices when nothing was.
pub(crate) struct Chosen {
    pub pairs: Vec<Pair>,
    /// Whether every pair there is was chosen.
    pub every: bool,
    pub prices: Vec<f64>,
}

impl<'f> Field<'f> {
    pub fn of(
        context: &'f PlanContext<'_, '_, '_>,
        (candidates, females): (&'f SeasonCandidates, &[Female]),
        with_kept: &'f [f64],
    ) -> Result<Self, PedigreeTooComplex> {
        let parents: Vec<PlantRow> = candidates
            .seeds
            .iter()
            .chain(&candidates.donors)
            .copied()
            .collect();
        let mut lots_of = vec![Vec::new(); candidates.donors.len()];
        // Pollen lies in the order of its plants, as the donors do.
        let mut donor = 0;
        for (lot, pollen) in candidates.pollen.iter().enumerate() {
            while candidates.donors[donor] != pollen.plant {
                donor += 1;
            }
            lots_of[donor].push(lot);
        }
        let must = context.goals.must.iter().copied();
        Ok(Self {
            kinship: context.kinship,
            worth: context.worth(&parents)?,
            most_inbreeding: context.goals.most_inbreeding,
            seeds: &candidates.seeds,
            donors: &candidates.donors,
            spikes: females.iter().map(|female| female.spikes.clone()).collect(),
            pollen: &candidates.pollen,
            lots_of,
            ruled_out: context.goals.never.iter().copied().collect(),
            demanded: must.filter(|pair| !candidates.made.has(*pair)).collect(),
            with_kept,
        })
    }

    /// Lots of a donor with when they meet the flowers of a seed parent, and which of its spikes they can meet, ascending; those
    /// that never do left out.
    pub fn meetings(
        &self,
        seed: usize,
        donor: usize,
    ) -> impl Iterator<Item = (usize, Meeting, Vec<usize>)> {
        let meets = move |&lot: &usize| {
            let pollen = &self.pollen[lot];
            let spikes = self.spikes[seed].iter();
            let each = spikes.map(|spike| meeting(*spike, pollen.window, pollen.keeps));
            let met: Vec<(usize, Meeting)> =
                each.enumerate().filter(|(_, of)| of.possible()).collect();
            let whole = met
                .iter()
                .fold(Meeting::Never, |whole, (_, of)| whole.or(*of));
            let spikes = met.into_iter().map(|(spike, _)| spike).collect();
            whole.possible().then_some((lot, whole, spikes))
        };
        self.lots_of[donor].iter().filter_map(meets)
    }

    /// Whether a pair must be made.
    pub fn is_demanded(&self, seed: usize, donor: usize) -> bool {
        self.demanded
            .contains(&(self.seeds[seed], self.donors[donor]))
    }

    pub fn is_ruled_out(&self, seed: usize, donor: usize) -> bool {
        let pair = (self.seeds[seed], self.donors[donor]);
        self.ruled_out.contains(&pair)
    }

    /// The pairs that can matter to the `plans` best plans of a season and of the season with any one limit eased.
    pub fn chosen(&self, season: &Season, pods: u32, plans: usize) -> Chosen {
        let (seed_line, donor_line) = season.places_of_lines();
        let cap = season.limits.mean_kinship;
        let most = if cap.is_some() {
            EVERY_PAIR_UNDER_A_CAP
        } else {
            EVERY_PAIR
        };
        let few = self.seeds.len().saturating_mul(self.donors.len()) <= most;
        let wanted = Wanted {
            // A limit eased may let one pod more in.
            pods: if few { most } else { pods as usize + 1 },
            plans,
        };
        let lines = season.limits.lines_through_pollen.len();
        let sift = || Sift::new(wanted, lines, &seed_line, &donor_line);
        let prices = if few || cap.is_none() {
            vec![0.0]
        } else {
            self.prices()
        };
        let mut sifts = Sifts {
            within: prices.iter().map(|&price| (price, sift())).collect(),
            beyond: sift(),
            always: Vec::new(),
        };
        self.offer_all(&mut sifts);
        Chosen {
            pairs: sifts.kept(),
            every: few,
            prices: if prices.len() > 1 { prices } else { Vec::new() },
        }
    }

    fn prices(&self) -> Vec<f64> {
        let spread = |of: &mut dyn Iterator<Item = f64>| {
            let (low, high) = of.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| {
                (low.min(x), high.max(x))
            });
            (high - low).max(0.0)
        };
        let parents = self.seeds.len() + self.donors.len();
        let of_merit = spread(&mut (0..parents).map(|plant| self.worth.merit(plant)));
        let of_kinship = spread(&mut self.with_kept.iter().copied());
        let unit = if of_merit > 0.0 { of_merit } else { 1.0 } / of_kinship.max(1e-6);
        PRICES.iter().map(|price| price * unit).collect()
    }

    /// Works out all pairs, donors of the greatest merit first, and stops where no later donor can matter.
    fn offer_all(&self, sifts: &mut Sifts) {
        let plant = |donor: usize| self.seeds.len() + donor;
        let mut order: Vec<usize> = (0..self.donors.len()).collect();
        let merit = |donor: &usize| self.worth.merit(plant(*donor));
        // Stable: donors of the same merit stay in order.
        order.sort_by(|a, b| merit(b).total_cmp(&merit(a)));
        let columns: Vec<PlantRow> = order.iter().map(|&donor| self.donors[donor]).collect();
        let seeds: Vec<usize> = (0..self.seeds.len()).collect();
        let donors: Vec<usize> = (0..self.donors.len()).map(plant).collect();
        let widest = self.worth.widest(&seeds, &donors);
        let stops = self.most_inbreeding.is_none() && sifts.within.len() == 1;
        let mut looked_at = 0;
        self.kinship
            .for_each_column(self.seeds, &columns, |column, kinship| {
                let donor = order[column];
                let hopeless = |sifts: &Sifts, seed: usize| {
                    stops && sifts.floor(seed) > self.worth.at_most(seed, plant(donor), &widest)
                };
                looked_at += 1;
                if looked_at % DONORS_BETWEEN == 0
                    && sifts.always.len() == self.demanded.len() + self.ruled_out.len()
                    && seeds.iter().all(|&seed| hopeless(sifts, seed))
                {
                    return false;
                }
                for (seed, &kinship) in kinship.iter().enumerate() {
                    let named = self.is_named(seed, donor);
                    if (named || !hopeless(sifts, seed)) && self.seeds[seed] != columns[column] {
                        self.offer(sifts, (seed, donor), kinship);
                    }
                }
                true
            });
    }

    /// Whether the goals name a pair.
    fn is_named(&self, seed: usize, donor: usize) -> bool {
        let pair = (self.seeds[seed], self.donors[donor]);
        !(self.demanded.is_empty() && self.ruled_out.is_empty())
            && (self.demanded.contains(&pair) || self.ruled_out.contains(&pair))
    }

    fn offer(&self, sifts: &mut Sifts, (seed, donor): (usize, usize), kinship: f64) {
        let mut meetings = self.meetings(seed, donor).peekable();
        if meetings.peek().is_none() {
            return;
        }
        let pair = Pair {
            seed: seed as u32,
            donor: donor as u32,
            value: self.worth.of(seed, self.seeds.len() + donor, kinship),
            inbreeding: kinship,
            may_not_meet: meetings.all(|(_, meets, _)| matches!(meets, Meeting::Perhaps(..))),
        };
        if self.is_named(seed, donor) {
            sifts.always.push(pair);
        } else if self.most_inbreeding.is_some_and(|cap| kinship > cap) {
            sifts.beyond.offer(pair, 0.0);
        } else {
            let with_kept = 0.5 * (self.with_kept[seed] + self.with_kept[self.seeds.len() + donor]);
            for (price, sift) in &mut sifts.within {
                sift.offer(pair, *price * with_kept);
            }
        }
    }
}

/// Pairs within the cap on inbreeding under several prices of kinship, pairs beyond it, and those the goals name.
struct Sifts<'s> {
    within: Vec<(f64, Sift<'s>)>,
    beyond: Sift<'s>,
    always: Vec<Pair>,
}

impl Sifts<'_> {
    fn floor(&self, seed: usize) -> f64 {
        self.within[0].1.floor(seed)
    }

    /// All that were kept by any, each once, by seed parent and donor.
    fn kept(self) -> Vec<Pair> {
        let mut pairs = self.always;
        pairs.extend(self.within.into_iter().flat_map(|(_, sift)| sift.kept()));
        pairs.extend(self.beyond.kept());
        pairs.sort_unstable_by_key(|pair| (pair.seed, pair.donor));
        pairs.dedup_by_key(|pair| (pair.seed, pair.donor));
        pairs
    }
}
