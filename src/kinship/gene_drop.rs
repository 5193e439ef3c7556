//! Gene dropping: founders' genes followed down a pedigree by lot, again and again.
//!
//! Gives the share of each founder's two gene copies still present in a set, and with it Lacy's founder genome
//! equivalents 1/Σ(p²/r) (Lacy 1989; simulation after MacCluer et al. 1986). Seeded, each round from its own seed, so
//! the result does not depend on how rounds are shared among processors.

use rayon::prelude::*;

use crate::lineage::{Pedigree, PlantRow};

use super::complete::Complete;
use super::founders::Representation;

/// What remains of founders' genes in a set.
#[derive(Clone, PartialEq, Debug)]
pub struct Retention {
    /// Founders with the expected share of their two copies still present, ascending by row, 0 to 1.
    pub founders: Vec<(PlantRow, f64)>,
    /// The same for unknown parents, in order of the plants they are parents of.
    pub unknown: Vec<f64>,
    /// Founder genomes surviving, the sum of all shares.
    pub surviving: f64,
    /// Lacy's founder genome equivalents, 1/Σ(p²/r).
    pub genome_equivalents: f64,
    /// Standard error of `surviving` from the rounds.
    pub standard_error: f64,
}

/// Follows genes down `rounds` times.
///
/// `representation` is that of the same set. Founders that contribute nothing are left out of the sums.
///
/// # Panics
/// If the set is empty or `rounds` is zero.
pub fn gene_drop(
    pedigree: &Pedigree,
    set: &[PlantRow],
    representation: &Representation,
    rounds: u32,
    seed: u64,
) -> Retention {
    assert!(
        !set.is_empty() && rounds > 0,
        "a set needs a plant, and dropping a round"
    );
    let (complete, rows) = Complete::above(pedigree, set);
    let founders: Vec<usize> = (0..complete.len())
        .filter(|&row| complete.is_founder(row))
        .collect();
    let (kept, sum, squares) = (0..rounds)
        .into_par_iter()
        .map(|round| {
            let kept = drop_once(
                &complete,
                &rows,
                &founders,
                SplitMix64::for_round(seed, round),
            );
            let survived: u64 = kept.iter().sum();
            (kept, survived, survived * survived)
        })
        .reduce(
            || (vec![0; founders.len()], 0, 0),
            |a, b| (add(a.0, &b.0), a.1 + b.1, a.2 + b.2),
        );
    let copies = 2.0 * f64::from(rounds);
    let mut found = Retention {
        founders: vec![],
        unknown: vec![],
        surviving: 0.0,
        genome_equivalents: 0.0,
        standard_error: 0.0,
    };
    for (&row, &kept) in founders.iter().zip(&kept) {
        match complete.plants[row] {
            Some(plant) => found.founders.push((plant, kept as f64 / copies)),
            None => found.unknown.push(kept as f64 / copies),
        }
    }
    found.surviving = sum as f64 / copies;
    let mean = sum as f64 / f64::from(rounds);
    let variance = squares as f64 / f64::from(rounds) - mean * mean;
    found.standard_error = 0.5 * libm::sqrt(variance.max(0.0) / f64::from(rounds));
    found.genome_equivalents = equivalents(representation, &found);
    found
}

/// 1/Σ(p²/r) over founders and unknown parents.
fn equivalents(representation: &Representation, retention: &Retention) -> f64 {
    let known = representation.founders.iter().zip(&retention.founders);
    let terms = known
        .filter(|((_, p), (_, r))| *p > 0.0 && *r > 0.0)
        .map(|((_, p), (_, r))| p * p / r);
    let unknown = representation
        .unknown_contributions
        .iter()
        .zip(&retention.unknown);
    let unknown = unknown
        .filter(|(p, r)| **p > 0.0 && **r > 0.0)
        .map(|(p, r)| p * p / r);
    1.0 / (terms.sum::<f64>() + unknown.sum::<f64>())
}

fn add(mut sum: Vec<u64>, more: &[u64]) -> Vec<u64> {
    sum.iter_mut()
        .zip(more)
        .for_each(|(sum, more)| *sum += more);
    sum
}

/// One round: copies of each founder that reach the set.
fn drop_once(
    complete: &Complete,
    set: &[u32],
    founders: &[usize],
    mut lot: SplitMix64,
) -> Vec<u64> {
    let mut copies: Vec<[u32; 2]> = Vec::with_capacity(complete.len());
    let mut drawn: Vec<Option<usize>> = vec![None; complete.pods + 1];
    for row in 0..complete.len() {
        let alternatives = complete.alternatives(row);
        if alternatives.is_empty() {
            copies.push([2 * row as u32, 2 * row as u32 + 1]);
            continue;
        }
        let pod = complete.shared_draw[row] as usize;
        let choice = match drawn[pod] {
            Some(choice) if pod > 0 => choice,
            _ => lot.choose(alternatives.iter().map(|alternative| alternative.chance)),
        };
        drawn[pod] = Some(choice);
        let bits = lot.next();
        let [seed, pollen] = alternatives[choice].parents;
        copies.push([
            copies[seed as usize][(bits & 1) as usize],
            copies[pollen as usize][(bits >> 1 & 1) as usize],
        ]);
    }
    let mut present = vec![false; 2 * complete.len()];
    set.iter()
        .flat_map(|&row| copies[row as usize])
        .for_each(|copy| present[copy as usize] = true);
    founders
        .iter()
        .map(|&row| u64::from(present[2 * row]) + u64::from(present[2 * row + 1]))
        .collect()
}

/// A portable generator (Steele, Lea & Flood 2014).
struct SplitMix64(u64);

impl SplitMix64 {
    fn for_round(seed: u64, round: u32) -> Self {
        let mut mixed = Self(seed ^ u64::from(round).wrapping_mul(0xD1B5_4A32_D192_ED03));
        Self(mixed.next())
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// An index drawn with the given chances, which sum to one.
    fn choose(&mut self, chances: impl ExactSizeIterator<Item = f64>) -> usize {
        let last = chances.len() - 1;
        let mut lot = (self.next() >> 11) as f64 / (1u64 << 53) as f64;
        for (at, chance) in chances.enumerate() {
            if lot < chance {
                return at;
            }
            lot -= chance;
        }
        last
    }
}
