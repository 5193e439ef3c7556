//! Founders grouped so that "alike by descent" means "of the same group of species".
//!
//! With a background kinship of 1 inside each group, the identity engine's inbreeding of a plant is the chance that
//! its two copies of a gene come from one group. Every question about the species of two copies is asked by choosing
//! the groups. What is unknown belongs to the part [`Part::Unknown`].

use crate::lineage::{
    FounderStock, Founding, IbdSolution, Mixture, Pedigree, PedigreeTooComplex, PlantRow,
};
use std::collections::BTreeMap;

use super::founders::Founders;
use super::part::Part;

/// Solves a pedigree where founders' gene copies are alike within the same group; copies of no group are unrelated, but
/// for those of one batch of seed, which are full siblings. Founders of one batch whose labels say unlike things are none
/// here: each is of the species that is said of it.
pub(super) fn solve(
    pedigree: &Pedigree,
    founders: &Founders,
    groups: u32,
    group: impl Fn(Part) -> Option<u32>,
) -> Result<IbdSolution, PedigreeTooComplex> {
    let mut founding = Founding::with_background(vec![1.0; groups as usize]);
    if let Some(unknown) = group(Part::Unknown) {
        founding.declare_unknown_parents(unknown);
    }
    let mut batches = Batches::default();
    for founder in founders_of(pedigree) {
        let sides = founders.descent(founder).sides().map(|side| {
            let shares = side.approximate().into_iter();
            shares
                .filter_map(|(part, share)| Some((group(founders.compared_as(part))?, share)))
                .collect()
        });
        let batch = (founders.batch(founder)).map(|batch| batches.part(batch, &sides));
        founding.declare(founder, FounderStock { sides, batch });
    }
    IbdSolution::solve(pedigree, &founding)
}

/// Batches of seed, parted by what is said of their plants.
#[derive(Default)]
struct Batches {
    said: BTreeMap<u32, Vec<([Mixture; 2], u32)>>,
    parts: u32,
}

impl Batches {
    /// The number of the part of a batch in which all have these sides.
    fn part(&mut self, batch: u32, sides: &[Mixture; 2]) -> u32 {
        let said = self.said.entry(batch).or_default();
        if let Some((_, part)) = said.iter().find(|(of, _)| of == sides) {
            return *part;
        }
        let part = self.parts;
        self.parts += 1;
        said.push((sides.clone(), part));
        part
    }
}

/// All parts that founders or unknown parents bring in, ascending.
pub(super) fn parts(pedigree: &Pedigree, founders: &Founders) -> Vec<Part> {
    let mut parts = Vec::new();
    for founder in founders_of(pedigree) {
        for side in founders.descent(founder).sides() {
            let held = side.approximate().into_iter();
            parts.extend(held.map(|(part, _)| founders.compared_as(part)));
        }
        if parts.len() > 4096 {
            parts.sort();
            parts.dedup();
        }
    }
    let mut pairs = pedigree.origins().iter().flat_map(|origin| &origin.pairs);
    if pairs.any(|pair| pair.seed.is_none() || pair.pollen.is_none()) {
        parts.push(Part::Unknown);
    }
    parts.sort();
    parts.dedup();
    parts
}

fn founders_of(pedigree: &Pedigree) -> impl Iterator<Item = PlantRow> + '_ {
    pedigree
        .plants()
        .filter(|&plant| pedigree.origin_row(plant).is_none())
}
