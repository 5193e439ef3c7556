//! How far a real seedling strays from its expected share of a species.
//!
//! Genes are handed on in long pieces of chromosome, so full siblings differ in what they received. The variance
//! depends on the number of chromosome pairs and their map length, which for *Nepenthes* is an assumption to be
//! printed: 40 pairs (2n = 80, counts differ between 78 and 80) of 1 Morgan, with 0.5 to 1.5 Morgan as its range.
//! Disomic inheritance, no interference (Haldane 1919). The closed form is that of Hill & Weir's frame (2011) and of
//! Frisch & Melchinger (2007); partly heterozygous parents go through the two-locus recursion, exact when the parent's
//! own two copies are independent, that is, when its parents were unrelated.

use crate::lineage::{Pedigree, PlantRow};

use super::expected::{ExpectedShares, expected_shares};
use super::founders::Founders;
use super::part::Part;
use super::quadrature;

/// The chromosomes of a genus.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Chromosomes {
    /// Number of pairs, at least 1.
    pub pairs: u32,
    /// Map length of each in Morgans, 0 (no crossing over) or more.
    pub morgans: f64,
}

impl Default for Chromosomes {
    /// 40 pairs of 1 Morgan.
    fn default() -> Self {
        Self {
            pairs: 40,
            morgans: 1.0,
        }
    }
}

/// Standard deviation of a species' share among full siblings, as a fraction of descent (0.04 is four points).
///
/// Alternatives of uncertain parents count by their chances; a label's side is taken as a gamete of a first-generation
/// hybrid of its shares.
pub fn share_deviation(
    pedigree: &Pedigree,
    founders: &Founders,
    [seed, pollen]: [PlantRow; 2],
    species: Part,
    chromosomes: Chromosomes,
) -> f64 {
    let extract = pedigree.extract(&[seed, pollen]);
    let above = founders.among(&extract.rows);
    let shares = expected_shares(&extract.pedigree, &above, species);
    let lines = Lines {
        pedigree: &extract.pedigree,
        shares: &shares,
    };
    let parents = [seed, pollen].map(|plant| {
        extract
            .row(plant)
            .expect("the plants are part of their own extract")
    });
    let length = chromosomes.morgans;
    let variance = if length == 0.0 {
        lines.covariance(0.0, parents) / 4.0
    } else {
        let along = |t: f64| {
            let crossed = -0.5 * libm::expm1(-2.0 * t);
            2.0 * (length - t) * 0.25 * (1.0 - 2.0 * crossed) * lines.covariance(crossed, parents)
        };
        quadrature::integrate(along, 0.0, length) / (length * length)
    };
    libm::sqrt(0.25 * variance / f64::from(chromosomes.pairs))
}

/// Descent along two places of one chromosome.
struct Lines<'a> {
    pedigree: &'a Pedigree,
    shares: &'a ExpectedShares,
}

/// Chances for one plant at two places with a given recombination fraction.
#[derive(Clone, Copy, Default)]
struct TwoPlaces {
    /// A gamete carries the species at both places.
    gamete: f64,
    /// Covariance over the two places of the difference between the plant's two copies.
    differing: f64,
}

impl Lines<'_> {
    /// Sum over both parents of the covariance between two places at the given recombination fraction.
    fn covariance(&self, crossed: f64, parents: [PlantRow; 2]) -> f64 {
        let mut origins: Vec<TwoPlaces> = Vec::with_capacity(self.pedigree.origins().len());
        for origin in self.pedigree.origins() {
            let mut sum = TwoPlaces::default();
            for (pair, chance) in origin.pairs.iter().zip(origin.chances()) {
                let sides = [pair.seed, pair.pollen].map(|parent| match parent {
                    Some(plant) => (
                        self.at(plant, crossed, &origins).gamete,
                        self.shares.of(self.pedigree, plant),
                    ),
                    None => (self.shares.of_unknown(), self.shares.of_unknown()),
                });
                let here = meet(sides, crossed);
                sum.gamete += chance * here.gamete;
                sum.differing += chance * here.differing;
            }
            origins.push(sum);
        }
        parents
            .iter()
            .map(|&plant| self.at(plant, crossed, &origins).differing)
            .sum()
    }

    fn at(&self, plant: PlantRow, crossed: f64, origins: &[TwoPlaces]) -> TwoPlaces {
        match self.pedigree.origin_row(plant) {
            Some(origin) => origins[origin.index()],
            None => {
                // A first-generation hybrid's gamete: all of one piece without crossing over, independent at ½.
                let side = |share: f64| (share - 2.0 * crossed * share * (1.0 - share), share);
                meet(self.shares.sides(plant).map(side), crossed)
            }
        }
    }
}

/// A plant from two gametes, each with its chance at both places and its share.
fn meet([(seed, p), (pollen, q)]: [(f64, f64); 2], crossed: f64) -> TwoPlaces {
    TwoPlaces {
        gamete: (1.0 - crossed) * 0.5 * (seed + pollen) + crossed * p * q,
        differing: seed + pollen - 2.0 * p * q,
    }
}
