//! Where plants come from: rows, pairs of parents, origins shared by the plants of one cross.

use super::row_types::{OriginRow, PlantRow};

/// One possible pair of parents; `None` is an unknown parent, which is never "unrelated" and never dropped.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Pair {
    /// The plant that bore the pod.
    pub seed: Option<PlantRow>,
    /// The plant that gave the pollen.
    pub pollen: Option<PlantRow>,
    /// Relative weight among the pairs of one origin, as the grower stated it; 0 when none was stated.
    pub weight: u32,
    /// For how many of the cases that are taken as equally likely it stands, where no weight was stated: 1, but for a
    /// mixed-up seedling one case is one pod, and each pair of a pod is a part of it.
    pub cases: u32,
}

/// How the true pair was drawn when an origin has several, or when a parent is unknown.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Donor {
    /// One pair made the whole pod; it is only not known which.
    WholePod,
    /// Every seed drew its own pair (mixed or open pollination, a muddled tray).
    EachSeed,
    /// One plant bore all seeds, yet each may have its own pollen parent: a pod of unknown parents.
    OneMother,
}

impl Donor {
    /// Whether all plants of an origin have one seed parent and one pollen parent, also where these are not known.
    pub fn shares(self) -> [bool; 2] {
        match self {
            Donor::WholePod => [true, true],
            Donor::EachSeed => [false, false],
            Donor::OneMother => [true, false],
        }
    }
}

/// Where the plants of one pod come from.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Origin {
    /// At least one pair; several when parentage is one of several.
    pub pairs: Vec<Pair>,
    /// How the pair was drawn. For a single pair it matters only where a parent is unknown: the plants of a
    /// [`Donor::WholePod`] share that unknown parent, those of [`Donor::EachSeed`] each had their own.
    pub donor: Donor,
    /// Of a plant that was mixed up: the origins it may be of, each with the number of its pods among those the plant may
    /// have come out of; all of them earlier. If it is of one, it has whatever parents the other plants of that origin
    /// have. Empty for every other plant. `pairs` then are all pairs of all of them.
    pub may_be_of: Vec<(OriginRow, u32)>,
}

impl Origin {
    /// An origin with one certain pair; what is unknown in it is unknown for each seed apart.
    pub fn certain(seed: Option<PlantRow>, pollen: Option<PlantRow>) -> Self {
        Self {
            pairs: vec![Pair {
                seed,
                pollen,
                weight: 0,
                cases: 1,
            }],
            donor: Donor::EachSeed,
            may_be_of: Vec::new(),
        }
    }

    /// The weights of the pairs: 1 for a single pair, the stated ones for several, `None` when several pairs do not
    /// all have one (weights for some of the alternatives are no weights).
    pub fn weights(&self) -> Option<Vec<u64>> {
        match &self.pairs[..] {
            [_] => Some(vec![1]),
            several => several
                .iter()
                .map(|pair| (pair.weight > 0).then_some(u64::from(pair.weight)))
                .collect(),
        }
    }

    /// The chance of each pair, summing to 1; where the weights are not stated (see [`Origin::weights`]), each case is as
    /// likely as any other.
    pub fn chances(&self) -> Vec<f64> {
        let cases = || {
            self.pairs
                .iter()
                .map(|pair| u64::from(pair.cases))
                .collect()
        };
        let weights = self.weights().unwrap_or_else(cases);
        let total: u64 = weights.iter().sum();
        weights
            .iter()
            .map(|&weight| weight as f64 / total as f64)
            .collect()
    }

    /// Whether its plants have one of several pairs of parents, or are of one of several origins: two crosses may have the
    /// same pair on record, and yet each an unknown parent of its own.
    pub fn is_one_of_several(&self) -> bool {
        self.pairs.len() > 1 || self.may_be_of.len() > 1
    }

    /// The chance of each origin it may be of, in their order, summing to 1: one pod is as likely as any other.
    pub fn chances_of_origins(&self) -> impl Iterator<Item = (OriginRow, f64)> {
        let pods: u32 = self.may_be_of.iter().map(|(_, pods)| pods).sum();
        let each = self.may_be_of.iter();
        each.map(move |&(origin, of)| (origin, f64::from(of) / f64::from(pods)))
    }

    /// All parents named, each once, ascending.
    pub fn parents(&self) -> Vec<PlantRow> {
        let mut named: Vec<PlantRow> = self
            .pairs
            .iter()
            .flat_map(|pair| [pair.seed, pair.pollen])
            .flatten()
            .collect();
        named.sort();
        named.dedup();
        named
    }
}
