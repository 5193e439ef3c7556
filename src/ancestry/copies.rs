//! Where a plant's two copies of a gene come from: the chances for every pair of species.
//!
//! Finer than heterozygosity, which is their sum, and needed for the spread within a pod. Computed for chosen plants
//! on their own ancestors. For each species and each pair of species the identity engine is asked once with only
//! those founders alike, so the cost grows with the square of the number of species above the plants.

use rayon::prelude::*;

use crate::lineage::{Pedigree, PedigreeTooComplex, PlantRow};

use super::alikeness::{parts, solve};
use super::founders::Founders;
use super::part::Part;

/// The two copies of one plant.
#[derive(Clone, PartialEq, Debug, Default)]
pub struct TwoCopies {
    /// For each part with such a chance: the chance that both copies come from it, and that they are moreover identical by descent.
    pub same: Vec<(Part, Same)>,
    /// For each pair of parts, ascending, with such a chance: the chance of one copy from each.
    pub differing: Vec<([Part; 2], f64)>,
}

/// Two copies from one species.
#[derive(Clone, Copy, PartialEq, Debug, Default)]
pub struct Same {
    /// Both copies come from it.
    pub both: f64,
    /// They are copies of one founder's one gene.
    pub identical: f64,
}

/// The two copies of each of some plants, in their order.
///
/// # Errors
/// [`PedigreeTooComplex`] as for inbreeding.
pub fn two_copies(
    pedigree: &Pedigree,
    founders: &Founders,
    plants: &[PlantRow],
) -> Result<Vec<TwoCopies>, PedigreeTooComplex> {
    let part_of = pedigree.extract(plants);
    let above = founders.among(&part_of.rows);
    let rows: Vec<PlantRow> = plants
        .iter()
        .filter_map(|&plant| part_of.row(plant))
        .collect();
    let question = Question {
        pedigree: &part_of.pedigree,
        founders: &above,
        plants: &rows,
    };
    let parts = parts(question.pedigree, question.founders);
    let shares: Vec<Vec<f64>> = parts.par_iter().map(|&part| question.share(part)).collect();
    let each = parts.par_iter().zip(&shares);
    let both: Vec<Vec<f64>> = each
        .map(|(&part, share)| question.both(&[part], share))
        .collect::<Result<_, _>>()?;
    let each = parts.par_iter().zip(&shares).zip(&both);
    let identical: Vec<Vec<f64>> = each
        .map(|((&part, share), both)| question.identical(part, share, both))
        .collect::<Result<_, _>>()?;
    let couples: Vec<(usize, usize)> = (0..parts.len())
        .flat_map(|one| (one + 1..parts.len()).map(move |other| (one, other)))
        .collect();
    let either = couples.par_iter().map(|&(one, other)| {
        let joint: Vec<f64> = shares[one]
            .iter()
            .zip(&shares[other])
            .map(|(one, other)| one + other)
            .collect();
        question.both(&[parts[one], parts[other]], &joint)
    });
    let either: Vec<Vec<f64>> = either.collect::<Result<_, _>>()?;
    let answer = |plant: usize| TwoCopies {
        same: (0..parts.len())
            .map(|at| {
                (
                    parts[at],
                    Same {
                        both: both[at][plant],
                        identical: identical[at][plant],
                    },
                )
            })
            .filter(|(_, same)| same.both != 0.0)
            .collect(),
        differing: couples
            .iter()
            .zip(&either)
            .map(|(&(one, other), either)| {
                (
                    [parts[one], parts[other]],
                    either[plant] - both[one][plant] - both[other][plant],
                )
            })
            .filter(|&(_, chance)| chance != 0.0)
            .collect(),
    };
    Ok((0..plants.len()).map(answer).collect())
}

/// Plants of a small pedigree about whose copies one asks.
struct Question<'a> {
    pedigree: &'a Pedigree,
    founders: &'a Founders,
    plants: &'a [PlantRow],
}

impl Question<'_> {
    /// The chance that both copies come from the group, from P(both in or both out) and the group's share.
    fn both(&self, group: &[Part], share: &[f64]) -> Result<Vec<f64>, PedigreeTooComplex> {
        let solved = solve(self.pedigree, self.founders, 2, |part| {
            Some(u32::from(group.contains(&part)))
        })?;
        let alike = self
            .plants
            .iter()
            .map(|&plant| solved.inbreeding(self.pedigree, plant));
        Ok(alike
            .zip(share)
            .map(|(alike, share)| share - 0.5 * (1.0 - alike))
            .collect())
    }

    /// The chance that both copies are identical by descent and from the species: all other founders are taken as
    /// alike, and the chance that both copies come from those is subtracted.
    fn identical(
        &self,
        species: Part,
        share: &[f64],
        both: &[f64],
    ) -> Result<Vec<f64>, PedigreeTooComplex> {
        let solved = solve(self.pedigree, self.founders, 1, |part| {
            (part != species).then_some(0)
        })?;
        let alike = self
            .plants
            .iter()
            .map(|&plant| solved.inbreeding(self.pedigree, plant));
        Ok(alike
            .zip(share.iter().zip(both))
            .map(|(alike, (share, both))| alike - (1.0 - 2.0 * share + both))
            .collect())
    }

    /// Expected share of a part in each plant, over alternatives by chance.
    fn share(&self, part: Part) -> Vec<f64> {
        let shares = super::expected::expected_shares(self.pedigree, self.founders, part);
        self.plants
            .iter()
            .map(|&plant| shares.of(self.pedigree, plant))
            .collect()
    }
}
