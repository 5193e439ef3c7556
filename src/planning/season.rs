//! A season's question: which pollinations, how many pods of each, within what limits?
//!
//! A pairing is one seed parent with one pollen lot; its value, inbreeding and kinship are the caller's numbers. Here is
//! what a plan must keep to and what a plan comes to; finding the best one is left to [`super::search`].

use super::shared_spikes::SharedSpikes;

/// A plant that could bear pods.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct SeedParent {
    /// Pods it may bear this season.
    pub pods: u32,
    /// The line (a species, say) it belongs to, for [`Limits::lines_through_seed`].
    pub line: Option<u32>,
}

/// A plant that gives pollen.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Donor {
    /// Pods its pollen may make, over all its lots.
    pub uses: u32,
    /// The line it belongs to, for [`Limits::lines_through_pollen`].
    pub line: Option<u32>,
}

/// Pollen of one donor: a stored lot, or what it sheds now.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Lot {
    /// Index of the donor.
    pub donor: usize,
    /// Pods this pollen suffices for.
    pub uses: u32,
}

/// One seed parent with one pollen lot.
#[derive(Clone, PartialEq, Debug)]
pub struct Pairing {
    /// Index of the seed parent.
    pub seed: usize,
    /// Index of the pollen lot.
    pub lot: usize,
    /// Worth of one pod.
    pub value: f64,
    /// Expected inbreeding of the seedlings: kinship of the parents, 0 to 1.
    pub inbreeding: f64,
    /// Mean kinship of the seedlings with what is kept, 0 to 1.
    pub kinship: f64,
    /// Whether flowers and pollen may not meet: of plans worth the same and as inbred the one that surely can be made is taken.
    pub may_not_meet: bool,
    /// Parents whose sex was only guessed, 0 to 2: of plans that are alike in all this the surer is taken.
    pub guessed_sexes: u32,
    /// How old its pollen is, 0 (as it is shed) to 1: of plans that are alike in all this the fresher is taken.
    pub staleness: f64,
    /// Pots the seedlings of one pod take.
    pub pots: u32,
    /// Pods it may get.
    pub most: u32,
    /// Ruled out by the grower.
    pub forbidden: bool,
}

impl Pairing {
    /// A pairing without demands on it, in `pots` pots a pod.
    pub fn new(seed: usize, lot: usize, value: f64, pots: u32) -> Self {
        Self {
            seed,
            lot,
            value,
            inbreeding: 0.0,
            kinship: 0.0,
            may_not_meet: false,
            guessed_sexes: 0,
            staleness: 0.0,
            pots,
            most: u32::MAX,
            forbidden: false,
        }
    }
}

/// Pods a seed parent must bear by a donor, of whichever of its lots.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Demand {
    /// Index of the seed parent.
    pub seed: usize,
    /// Index of the donor.
    pub donor: usize,
    /// Fewest pods.
    pub least: u32,
}

/// Limits on the whole plan.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Limits {
    /// Pots there are; `None` for no limit.
    pub pots: Option<u64>,
    /// Fewest pods in all.
    pub fewest_pods: u32,
    /// Most pods in all.
    pub most_pods: Option<u32>,
    /// Highest inbreeding of any pod's seedlings.
    pub inbreeding: Option<f64>,
    /// Highest mean kinship of all pods' seedlings with what is kept.
    pub mean_kinship: Option<f64>,
    /// Lines that need at least one pod on one of their seed parents.
    pub lines_through_seed: Vec<u32>,
    /// Lines that need at least one pod from one of their donors.
    pub lines_through_pollen: Vec<u32>,
}

/// A season.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct Season {
    /// Plants that could bear pods.
    pub seed_parents: Vec<SeedParent>,
    /// Plants that give pollen.
    pub donors: Vec<Donor>,
    /// Pollen at hand or expected.
    pub lots: Vec<Lot>,
    /// What could be done.
    pub pairings: Vec<Pairing>,
    /// What must be made.
    pub demands: Vec<Demand>,
    /// Spikes that several pairings share.
    pub shared_spikes: Vec<SharedSpikes>,
    /// Limits on the whole.
    pub limits: Limits,
    /// Where pairings were chosen out of more that could be made: prices of mean kinship under each of which none that
    /// could better a plan was left out. Empty where none was left out at all, or none that could matter.
    pub chosen_at: Vec<f64>,
}

/// A plan: pods per pairing, ascending by pairing, none with 0 pods; and what it comes to.
#[derive(Clone, PartialEq, Debug)]
pub struct Plan {
    /// Pairing and pods.
    pub pods: Vec<(usize, u32)>,
    /// Σ pods · value.
    pub value: f64,
    /// Pods in all.
    pub total: u32,
    /// Pots its seedlings take.
    pub pots: u64,
    /// Mean inbreeding over pods; 0 for an empty plan.
    pub mean_inbreeding: f64,
    /// Mean kinship with what is kept over pods; 0 for an empty plan.
    pub mean_kinship: f64,
}

/// Allowance for rounding when means are held against a cap.
const ALLOWANCE: f64 = 1e-12;

impl Season {
    /// The most pods any plan can have when the seedlings of a pod take at least so many pots.
    pub fn most_pods(&self, leanest: u32) -> u32 {
        let seeds: u64 = self.seed_parents.iter().map(|s| u64::from(s.pods)).sum();
        let donors: u64 = self.donors.iter().map(|d| u64::from(d.uses)).sum();
        let lots: u64 = self.lots.iter().map(|l| u64::from(l.uses)).sum();
        let pots = match self.limits.pots {
            Some(pots) if leanest > 0 => pots / u64::from(leanest),
            _ => u64::MAX,
        };
        let stated = self.limits.most_pods.map_or(u64::MAX, u64::from);
        let most = seeds.min(donors).min(lots).min(pots).min(stated);
        u32::try_from(most).unwrap_or(u32::MAX)
    }

    /// For each seed parent, and for each donor, the place of its line among those that must be kept, if it has one.
    pub fn places_of_lines(&self) -> (Vec<Option<usize>>, Vec<Option<usize>>) {
        let place = |lines: &[u32], line: Option<u32>| lines.iter().position(|&l| Some(l) == line);
        let (seed, pollen) = (
            &self.limits.lines_through_seed,
            &self.limits.lines_through_pollen,
        );
        let seeds = self.seed_parents.iter().map(|s| place(seed, s.line));
        let donors = self.donors.iter().map(|d| place(pollen, d.line));
        (seeds.collect(), donors.collect())
    }

    /// The seed parent of shared spikes; `None` where they have no pairing.
    pub fn seed_of(&self, shared: &SharedSpikes) -> Option<usize> {
        shared.pairings.first().map(|&at| self.pairings[at].seed)
    }

    /// Whether a pairing may get pods at all.
    pub fn open(&self, pairing: &Pairing) -> bool {
        let within = |cap: f64| pairing.inbreeding <= cap + ALLOWANCE;
        !pairing.forbidden && self.limits.inbreeding.is_none_or(within)
    }

    /// The demand that pods of a pairing go toward.
    pub fn demand_on(&self, pairing: &Pairing) -> Option<usize> {
        let plants = (pairing.seed, self.lots[pairing.lot].donor);
        let meant = |demand: &Demand| (demand.seed, demand.donor) == plants;
        self.demands.iter().position(meant)
    }

    /// What a plan comes to.
    pub fn plan(&self, pods: Vec<(usize, u32)>) -> Plan {
        let sum = |of: &dyn Fn(&Pairing) -> f64| -> f64 {
            let each = pods
                .iter()
                .map(|&(at, n)| f64::from(n) * of(&self.pairings[at]));
            // Nothing adds up to 0, not to the −0 a sum of no numbers begins with.
            each.fold(0.0, |sum, part| sum + part)
        };
        let total: u32 = pods.iter().map(|&(_, n)| n).sum();
        let mean = |sum: f64| {
            if total == 0 {
                0.0
            } else {
                sum / f64::from(total)
            }
        };
        let pots = pods
            .iter()
            .map(|&(at, n)| u64::from(n) * u64::from(self.pairings[at].pots));
        Plan {
            value: sum(&|pairing| pairing.value),
            total,
            pots: pots.sum(),
            mean_inbreeding: mean(sum(&|pairing| pairing.inbreeding)),
            mean_kinship: mean(sum(&|pairing| pairing.kinship)),
            pods,
        }
    }

    /// Pods of a plan whose flowers and pollen may not meet.
    pub fn pods_that_may_not_meet(&self, plan: &Plan) -> u64 {
        let unsure = plan.pods.iter();
        let unsure = unsure.filter(|&&(at, _)| self.pairings[at].may_not_meet);
        unsure.map(|&(_, n)| u64::from(n)).sum()
    }

    /// How often a plan relies on a sex that was only guessed: Σ pods · parents of such a sex.
    pub fn guessed_sexes(&self, plan: &Plan) -> u64 {
        let each = plan.pods.iter();
        each.map(|&(at, n)| u64::from(n) * u64::from(self.pairings[at].guessed_sexes))
            .sum()
    }

    /// How old the pollen of a plan is: Σ pods · staleness.
    pub fn staleness(&self, plan: &Plan) -> f64 {
        let each = plan.pods.iter();
        each.map(|&(at, n)| f64::from(n) * self.pairings[at].staleness)
            .sum()
    }

    /// Whether a plan keeps to every limit; the slow and obvious check every answer is held against.
    pub fn allows(&self, plan: &Plan) -> bool {
        let limits = &self.limits;
        let whole = limits.pots.is_none_or(|pots| plan.pots <= pots)
            && plan.total >= limits.fewest_pods
            && limits.most_pods.is_none_or(|most| plan.total <= most)
            && limits
                .mean_kinship
                .is_none_or(|cap| plan.mean_kinship <= cap + ALLOWANCE);
        whole && self.allows_parts(plan)
    }

    /// Whether a plan keeps to the limits of every pairing, plant, lot and line.
    fn allows_parts(&self, plan: &Plan) -> bool {
        let mut made = Made::of(self);
        for &(at, n) in &plan.pods {
            let pairing = &self.pairings[at];
            if n > pairing.most || (n > 0 && !self.open(pairing)) {
                return false;
            }
            made.add(self, pairing, u64::from(n));
        }
        made.keeps_to(self) && self.shared_spikes.iter().all(|of| of.bear(&plan.pods))
    }
}

/// Pods a plan makes, by seed parent, donor, lot and demand.
struct Made {
    seeds: Vec<u64>,
    donors: Vec<u64>,
    lots: Vec<u64>,
    demands: Vec<u64>,
}

impl Made {
    fn of(season: &Season) -> Self {
        Self {
            seeds: vec![0; season.seed_parents.len()],
            donors: vec![0; season.donors.len()],
            lots: vec![0; season.lots.len()],
            demands: vec![0; season.demands.len()],
        }
    }

    fn add(&mut self, season: &Season, pairing: &Pairing, pods: u64) {
        let donor = season.lots[pairing.lot].donor;
        self.seeds[pairing.seed] += pods;
        self.donors[donor] += pods;
        self.lots[pairing.lot] += pods;
        for (demand, made) in season.demands.iter().zip(&mut self.demands) {
            if (demand.seed, demand.donor) == (pairing.seed, donor) {
                *made += pods;
            }
        }
    }

    fn keeps_to(&self, season: &Season) -> bool {
        let within = |made: u64, most: u32| made <= u64::from(most);
        let limits = &season.limits;
        let seeds = || self.seeds.iter().zip(&season.seed_parents);
        let donors = || self.donors.iter().zip(&season.donors);
        let mut lots = self.lots.iter().zip(&season.lots);
        let mut demands = self.demands.iter().zip(&season.demands);
        let keeps_seed_line =
            |line: &u32| seeds().any(|(&made, parent)| parent.line == Some(*line) && made > 0);
        let keeps_donor_line =
            |line: &u32| donors().any(|(&made, parent)| parent.line == Some(*line) && made > 0);
        seeds().all(|(&made, parent)| within(made, parent.pods))
            && donors().all(|(&made, parent)| within(made, parent.uses))
            && lots.all(|(&made, lot)| within(made, lot.uses))
            && demands.all(|(&made, demand)| made >= u64::from(demand.least))
            && limits.lines_through_seed.iter().all(keeps_seed_line)
            && limits.lines_through_pollen.iter().all(keeps_donor_line)
    }
}
