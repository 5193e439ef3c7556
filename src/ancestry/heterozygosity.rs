//! Interspecific heterozygosity: the chance that a plant's two copies of a gene descend from different species.
//!
//! Exact also for related parents, where the product 1 − Σ pq of the parents' shares is not: it is 1 minus the
//! inbreeding the plant would have if all plants of a species were one fully inbred line. Copies through unknown
//! parents, or of a name that is only provisional, may be of any species, so there are two figures: what is certain and
//! what is possible.

use std::collections::{BTreeMap, BTreeSet};

use crate::lineage::{IbdSolution, OriginRow, Pedigree, PedigreeTooComplex, PlantRow};

use super::alikeness::{parts, solve};
use super::expected::{ExpectedShares, expected_shares};
use super::founders::{FounderDescent, Founders};
use super::part::Part;

/// The chance of two copies from different species, 0 to 1.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Heterozygosity {
    /// Both copies of known and different species.
    pub certain: f64,
    /// All but the chance that both copies are of one known species, or are one copy of an unknown plant inherited twice;
    /// equal to `certain` where nothing is unknown.
    pub possible: f64,
    /// Whether an unstated chance among several parents was taken as equal.
    pub assumes_equal_chances: bool,
}

impl Heterozygosity {
    /// Whether nothing unknown leaves it open.
    pub fn is_known(&self) -> bool {
        self.possible - self.certain < 1e-9
    }
}

/// The heterozygosity of each of some plants, in their order, worked out on their own ancestors.
///
/// # Errors
/// [`PedigreeTooComplex`] as for inbreeding.
pub fn heterozygosity_of_each(
    pedigree: &Pedigree,
    founders: &Founders,
    plants: &[PlantRow],
) -> Result<Vec<Heterozygosity>, PedigreeTooComplex> {
    let part = pedigree.extract(plants);
    let above = founders.among(&part.rows);
    let all = Heterozygosities::of(&part.pedigree, &above)?;
    let rows = plants.iter().filter_map(|&plant| part.row(plant));
    Ok(rows
        .map(|row| all.heterozygosity(&part.pedigree, &above, row))
        .collect())
}

/// What is asked about copies of unknown species.
struct UnknownCopies {
    shares: ExpectedShares,
    /// Unknown copies alike, and all others alike.
    by_knowledge: IbdSolution,
    /// Unknown copies alike only by descent, all others alike.
    by_descent: IbdSolution,
}

impl UnknownCopies {
    fn of(pedigree: &Pedigree, founders: &Founders) -> Result<Self, PedigreeTooComplex> {
        Ok(Self {
            shares: expected_shares(pedigree, founders, Part::Unknown),
            by_knowledge: solve(pedigree, founders, 2, |part| {
                Some(u32::from(part == Part::Unknown))
            })?,
            by_descent: solve(pedigree, founders, 1, |part| {
                (part != Part::Unknown).then_some(0)
            })?,
        })
    }

    /// The chances that one of a seedling's two copies is unknown, and that both are and may be of two species: one copy
    /// that is inherited twice is of one.
    fn in_pod(&self, origin: OriginRow) -> [f64; 2] {
        let one = 1.0 - self.by_knowledge.pod_identity(origin).inbreeding;
        let both = self.shares.of_origin(origin) - 0.5 * one;
        let both_known = 1.0 - one - both;
        let identical = self.by_descent.pod_identity(origin).inbreeding - both_known;
        [one, both - identical]
    }
}

/// The interspecific heterozygosity of every plant, kept per origin.
#[derive(Clone, PartialEq, Debug)]
pub struct Heterozygosities {
    origins: Vec<Heterozygosity>,
}

impl Heterozygosities {
    /// Computes them for all origins of a pedigree, at the cost of inbreeding. Where founders have a hybrid's name alone, so
    /// that what they pass on may be of any of its species, it is computed once more for each set of such names behind a
    /// plant: a name that is not behind it says nothing of it.
    ///
    /// # Errors
    /// [`PedigreeTooComplex`] as for inbreeding.
    pub fn of(pedigree: &Pedigree, founders: &Founders) -> Result<Self, PedigreeTooComplex> {
        let Some(unnamed) = founders.without_names_alone() else {
            return Self::solved(pedigree, founders);
        };
        let mut all = Self::solved(pedigree, &unnamed)?;
        let (sets, behind) = names_behind(pedigree, founders);
        for (names, number) in sets {
            let least = Self::solved(pedigree, &founders.with_names_merged(&names))?;
            let found = all.origins.iter_mut().zip(&least.origins).zip(&behind);
            for ((of, least), _) in found.filter(|(_, behind)| **behind == Some(number)) {
                of.certain = least.certain;
            }
        }
        Ok(all)
    }

    fn solved(pedigree: &Pedigree, founders: &Founders) -> Result<Self, PedigreeTooComplex> {
        let parts = parts(pedigree, founders);
        let number = |part| parts.binary_search(&part).ok().map(|at| at as u32);
        let by_part = solve(pedigree, founders, parts.len() as u32, number)?;
        let unknown = match parts.contains(&Part::Unknown) {
            true => Some(UnknownCopies::of(pedigree, founders)?),
            false => None,
        };
        let assumed = pedigree.origins_touched(|origin| origin.weights().is_none());
        let origins = pedigree.origin_rows().map(|origin| {
            let differing = 1.0 - by_part.pod_identity(origin).inbreeding;
            let unknown = unknown.as_ref();
            let [one_unknown, two_unknown] = unknown.map_or([0.0; 2], |of| of.in_pod(origin));
            Heterozygosity {
                certain: differing - one_unknown,
                possible: differing + two_unknown,
                assumes_equal_chances: assumed[origin.index()],
            }
        });
        Ok(Self {
            origins: origins.collect(),
        })
    }

    /// The heterozygosity of a plant; for a founder what its label implies.
    pub fn heterozygosity(
        &self,
        pedigree: &Pedigree,
        founders: &Founders,
        plant: PlantRow,
    ) -> Heterozygosity {
        match pedigree.origin_row(plant) {
            Some(origin) => self.origins[origin.index()],
            None => of_founder(founders, plant),
        }
    }

    /// The heterozygosity of the plants of an origin.
    pub fn heterozygosity_of_origin(&self, origin: OriginRow) -> Heterozygosity {
        self.origins[origin.index()]
    }
}

/// Hybrids' names, each by its species.
type Names = BTreeSet<Vec<u32>>;

/// The sets of hybrids' names alone that are behind plants, numbered, and which of them is behind each origin, if one is.
fn names_behind(
    pedigree: &Pedigree,
    founders: &Founders,
) -> (BTreeMap<Names, usize>, Vec<Option<usize>>) {
    let mut sets: Vec<Names> = Vec::new();
    let mut numbers: BTreeMap<Names, usize> = BTreeMap::new();
    let mut behind: Vec<Option<usize>> = Vec::new();
    for origin in pedigree.origins() {
        let mut names = Names::new();
        let parents = origin
            .pairs
            .iter()
            .flat_map(|pair| [pair.seed, pair.pollen]);
        for parent in parents.flatten() {
            match pedigree.origin_row(parent) {
                None => names.extend(founders.species_of_name_alone(parent)),
                Some(row) => {
                    let above = behind[row.index()].map(|number| &sets[number]);
                    names.extend(above.into_iter().flatten().cloned());
                }
            }
        }
        behind.push((!names.is_empty()).then(|| {
            *numbers.entry(names).or_insert_with_key(|names| {
                sets.push(names.clone());
                sets.len() - 1
            })
        }));
    }
    (numbers, behind)
}

/// From a label's two sides, taken as unrelated.
fn of_founder(founders: &Founders, plant: PlantRow) -> Heterozygosity {
    if let FounderDescent::Named(whole) = founders.descent(plant) {
        // A hybrid's name says nothing of the generation, so its two copies may be of one species or of two.
        return Heterozygosity {
            certain: 0.0,
            possible: if whole.sole_part().is_some() {
                0.0
            } else {
                1.0
            },
            assumes_equal_chances: false,
        };
    }
    let [seed, pollen] = founders
        .descent(plant)
        .sides()
        .map(|side| side.approximate());
    let pairs = || {
        seed.iter()
            .flat_map(|one| pollen.iter().map(move |other| (one, other)))
    };
    if founders.is_by_name(plant) && pairs().any(|(one, other)| one.0 == other.0) {
        // Behind a hybrid's name either copy may be of one species or of another.
        return Heterozygosity {
            certain: 0.0,
            possible: 1.0,
            assumes_equal_chances: false,
        };
    }
    let known = |part| founders.is_sure(part);
    let differ = pairs().filter(|(one, other)| known(one.0) && known(other.0) && one.0 != other.0);
    let same = pairs().filter(|(one, other)| known(one.0) && one.0 == other.0);
    Heterozygosity {
        // Not `sum`: over nothing that is -0.0, and would be printed so.
        certain: differ.fold(0.0, |sum, (one, other)| sum + one.1 * other.1),
        possible: 1.0 - same.map(|(one, other)| one.1 * other.1).sum::<f64>(),
        assumes_equal_chances: false,
    }
}
