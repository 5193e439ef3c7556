//! Which of very many pairings can matter to a season of few pods?
//!
//! Take a plan of at most K pods and one of its pairings. The other K − 1 pods leave at most K − 1 donors without
//! pollen, so wherever the same seed parent has K − 1 + R better donors the pod can go to R of them: the plan is not
//! among the R best. And they take at most K − 1 seed parents and K − 1 donors out of pairs that share no plant, so
//! wherever 2(K − 1) + R such pairs are better, R of them are free. What is left is a few hundred pairings for each
//! seed parent at most, however many donors there are, and nothing a wanted plan could use is lost. A line that must be
//! kept is never given up by such a swap: donors of a line are weighed against donors of that line.

use std::cmp::Ordering;

/// A seed parent with a donor, by the best of its pollen.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Pair {
    /// Index of the seed parent.
    pub seed: u32,
    /// Index of the donor.
    pub donor: u32,
    /// Worth of one pod, without the price of anything.
    pub value: f64,
    /// Expected inbreeding of the seedlings, 0 to 1.
    pub inbreeding: f64,
    /// Whether flowers and pollen only perhaps meet, whichever of the donor's pollen is taken.
    pub may_not_meet: bool,
}

/// How many pods a plan may have, and how many plans are wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Wanted {
    /// Most pods of any plan, at least 1.
    pub pods: usize,
    /// Plans wanted, at least 1.
    pub plans: usize,
}

impl Wanted {
    /// Better donors of one seed parent that rule a pairing out.
    fn donors(self) -> usize {
        self.pods - 1 + self.plans
    }

    /// Better pairs without a plant in common that rule a pairing out.
    fn apart(self) -> usize {
        2 * (self.pods - 1) + self.plans
    }
}

/// A pair as it is weighed: its worth less the price of what it takes.
#[derive(Clone, Copy)]
struct Weighed {
    weight: f64,
    pair: Pair,
}

impl Weighed {
    /// The better first: weight, then least inbreeding, then what surely meets, then by number.
    fn order(&self, other: &Self) -> Ordering {
        let number = |of: &Self| (of.pair.seed, of.pair.donor);
        (other.weight.total_cmp(&self.weight))
            .then(self.pair.inbreeding.total_cmp(&other.pair.inbreeding))
            .then(self.pair.may_not_meet.cmp(&other.pair.may_not_meet))
            .then(number(self).cmp(&number(other)))
    }
}

/// Takes pairs in any order and keeps those that can matter.
pub struct Sift<'a> {
    wanted: Wanted,
    /// For each seed parent and donor its place among the lines that must be kept, if it has one.
    seed_line: &'a [Option<usize>],
    donor_line: &'a [Option<usize>],
    lines: usize,
    /// For each seed parent and line of donors (the last for donors of no such line) the best pairs.
    best: Vec<Best>,
}

#[derive(Clone)]
struct Best {
    pairs: Vec<Weighed>,
    /// Pairs that weigh less are not wanted; −∞ until there are enough.
    floor: f64,
}

impl<'a> Sift<'a> {
    /// For some seed parents and donors, of whose lines `lines` must be kept.
    pub fn new(
        wanted: Wanted,
        lines: usize,
        seed_line: &'a [Option<usize>],
        donor_line: &'a [Option<usize>],
    ) -> Self {
        let none = Best {
            pairs: Vec::new(),
            floor: f64::NEG_INFINITY,
        };
        Self {
            wanted,
            seed_line,
            donor_line,
            lines,
            best: vec![none; seed_line.len() * (lines + 1)],
        }
    }

    /// Looks at a pair that may be made, `price` being what it takes of something scarce.
    pub fn offer(&mut self, pair: Pair, price: f64) {
        let line = self.donor_line[pair.donor as usize].unwrap_or(self.lines);
        let best = &mut self.best[pair.seed as usize * (self.lines + 1) + line];
        let weight = pair.value - price;
        if weight < best.floor {
            return;
        }
        best.pairs.push(Weighed { weight, pair });
        // More than the seed parent needs, or pairs without a plant in common would run out.
        let most = self.wanted.apart();
        if best.pairs.len() >= 2 * most {
            best.shorten(most);
        }
    }

    /// Pairs of a seed parent that weigh less are not wanted, whatever their donor; −∞ until there are enough.
    pub fn floor(&self, seed: usize) -> f64 {
        let lines = &self.best[seed * (self.lines + 1)..(seed + 1) * (self.lines + 1)];
        lines
            .iter()
            .map(|best| best.floor)
            .fold(f64::INFINITY, f64::min)
    }

    /// What can matter, in falling weight.
    pub fn kept(mut self) -> Vec<Pair> {
        let most = self.wanted.apart();
        self.best.iter_mut().for_each(|best| best.shorten(most));
        let mut of_list = vec![0; self.best.len()];
        let mut kept: Vec<Weighed> = self.best.into_iter().flat_map(|best| best.pairs).collect();
        kept.sort_unstable_by(Weighed::order);
        let needed = self.wanted.apart();
        let mut seeds = vec![false; self.seed_line.len()];
        let mut donors = vec![false; self.donor_line.len()];
        let mut apart = 0;
        kept.retain(|Weighed { pair, .. }| {
            let (seed, donor) = (pair.seed as usize, pair.donor as usize);
            let keeps_a_line = self.seed_line[seed].is_some() || self.donor_line[donor].is_some();
            let enough = apart >= needed;
            let line = self.donor_line[donor].unwrap_or(self.lines);
            let better = &mut of_list[seed * (self.lines + 1) + line];
            *better += 1;
            let is_among_best = *better <= self.wanted.donors();
            if !seeds[seed] && !donors[donor] {
                (seeds[seed], donors[donor]) = (true, true);
                apart += 1;
            }
            is_among_best && (keeps_a_line || !enough)
        });
        kept.into_iter().map(|weighed| weighed.pair).collect()
    }
}

impl Best {
    fn shorten(&mut self, most: usize) {
        if self.pairs.len() > most {
            self.pairs.select_nth_unstable_by(most - 1, Weighed::order);
            self.pairs.truncate(most);
        }
        if self.pairs.len() == most {
            let least = self.pairs.iter().map(|weighed| weighed.weight);
            self.floor = least.fold(f64::INFINITY, f64::min);
        }
    }
}
