//! How much of each plant descends from which species: half from the seed parent, half from the pollen parent.
//!
//! Computed once per origin, since all plants of a pod share it, and kept in columns. An unknown parent gives a share
//! "unknown". Several possible pairs with stated weights give their weighted mean; without weights, what all
//! alternatives agree on is sure and the rest is a share "one of …" that is never split.
//! It does not say how far one real seedling strays from its expected share: that is [`super::spread`].

use std::collections::BTreeMap;

use num_bigint::BigUint;

use crate::lineage::{Origin, OriginRow, Pair, Pedigree, PlantRow};
use crate::numeric::{Mix, MixRef};

use super::composition::{Composition, TooDeep, Width, WidthRef, agreed, mean};
use super::founders::Founders;
use super::part::Part;
use super::part_sets::PartSets;

/// The exact shares of every plant of a pedigree.
#[derive(Debug, Default)]
pub struct Shares {
    /// Founders in ascending row order; their compositions come first among the rows.
    founders: Vec<PlantRow>,
    rows: Rows,
    sets: PartSets,
}

impl Shares {
    /// Computes all shares; cost grows with founders and origins, not with seedlings.
    pub fn of(pedigree: &Pedigree, founders: &Founders) -> Self {
        // What labels of founders leave open keeps its numbers.
        let mut shares = Self {
            sets: founders.sets.clone(),
            ..Self::default()
        };
        for plant in pedigree
            .plants()
            .filter(|&plant| pedigree.origin_row(plant).is_none())
        {
            shares.founders.push(plant);
            shares.rows.push(
                founders
                    .descent(plant)
                    .composition()
                    .map(|composition| composition.0),
            );
        }
        for origin in pedigree.origins() {
            let composition = shares.of_origin(pedigree, origin);
            shares.rows.push(composition);
        }
        shares
    }

    /// The composition of a plant.
    ///
    /// # Errors
    /// [`TooDeep`] when its denominator passes the limit of [`super::composition::LIMIT_BITS`] bits.
    pub fn composition(
        &self,
        pedigree: &Pedigree,
        plant: PlantRow,
    ) -> Result<Composition, TooDeep> {
        self.rows
            .get(self.row(pedigree, plant))
            .map(|mix| Composition(mix.to_owned()))
    }

    /// The composition of the plants of an origin, also of one that has only seeds so far.
    ///
    /// # Errors
    /// As [`Shares::composition`].
    pub fn composition_of_origin(&self, origin: OriginRow) -> Result<Composition, TooDeep> {
        self.rows
            .get(self.founders.len() + origin.index())
            .map(|mix| Composition(mix.to_owned()))
    }

    /// The members of a "one of" set, in ascending order, none of them a set itself.
    pub fn members(&self, set: u32) -> &[Part] {
        self.sets.members(set)
    }

    /// Whether the possible pairs of an origin give different shares; so where one of them cannot be told.
    pub(super) fn pairs_differ(&self, pedigree: &Pedigree, origin: &Origin) -> bool {
        let mut each = (origin.pairs.iter()).map(|pair| self.of_pair(pedigree, pair));
        match each.next() {
            Some(Ok(first)) => {
                each.any(|other| other.is_err() || other.is_ok_and(|of| of != first))
            }
            Some(Err(TooDeep)) => true,
            None => false,
        }
    }

    fn of_pair(&self, pedigree: &Pedigree, pair: &Pair) -> Result<Width, TooDeep> {
        let unknown = Mix::pure(Part::Unknown);
        let of_parent = |parent: Option<PlantRow>| match parent {
            Some(plant) => self.rows.get(self.row(pedigree, plant)),
            None => Ok(WidthRef::Narrow(unknown.lend())),
        };
        mean(&[(1, of_parent(pair.seed)?), (1, of_parent(pair.pollen)?)])
    }

    fn row(&self, pedigree: &Pedigree, plant: PlantRow) -> usize {
        match pedigree.origin_row(plant) {
            Some(origin) => self.founders.len() + origin.index(),
            None => self
                .founders
                .binary_search(&plant)
                .expect("every founder has shares"),
        }
    }

    fn of_origin(&mut self, pedigree: &Pedigree, origin: &Origin) -> Result<Width, TooDeep> {
        let unknown = Mix::pure(Part::Unknown);
        let of_parent = |parent: Option<PlantRow>| match parent {
            Some(plant) => self.rows.get(self.row(pedigree, plant)),
            None => Ok(WidthRef::Narrow(unknown.lend())),
        };
        if let Some(weights) = origin.weights() {
            let mut terms = Vec::with_capacity(2 * weights.len());
            for (pair, weight) in origin.pairs.iter().zip(weights) {
                terms.push((weight, of_parent(pair.seed)?));
                terms.push((weight, of_parent(pair.pollen)?));
            }
            return mean(&terms);
        }
        let alternatives: Result<Vec<Width>, TooDeep> = origin
            .pairs
            .iter()
            .map(|pair| self.of_pair(pedigree, pair))
            .collect();
        let sets = &mut self.sets;
        agreed(&alternatives?, |open| sets.part_for(open))
    }
}

/// Compositions in columns; the few that outgrow `u128` stand apart.
#[derive(Debug, Default)]
struct Rows {
    /// Where each row ends in `parts` and `counts`.
    ends: Vec<usize>,
    wholes: Vec<u128>,
    parts: Vec<Part>,
    counts: Vec<u128>,
    apart: BTreeMap<usize, Result<Mix<Part, BigUint>, TooDeep>>,
}

impl Rows {
    fn push(&mut self, composition: Result<Width, TooDeep>) {
        let row = self.ends.len();
        let whole = match composition {
            Ok(Width::Narrow(mix)) => {
                self.parts.extend_from_slice(&mix.parts);
                self.counts.extend_from_slice(&mix.counts);
                mix.whole
            }
            Ok(Width::Wide(mix)) => {
                self.apart.insert(row, Ok(mix));
                0
            }
            Err(refusal) => {
                self.apart.insert(row, Err(refusal));
                0
            }
        };
        self.wholes.push(whole);
        self.ends.push(self.parts.len());
    }

    fn get(&self, row: usize) -> Result<WidthRef<'_>, TooDeep> {
        if self.wholes[row] == 0 {
            return self.apart[&row]
                .as_ref()
                .map(|mix| WidthRef::Wide(mix.lend()))
                .map_err(|&refusal| refusal);
        }
        let start = if row == 0 { 0 } else { self.ends[row - 1] };
        let range = start..self.ends[row];
        Ok(WidthRef::Narrow(MixRef {
            whole: &self.wholes[row],
            parts: &self.parts[range.clone()],
            counts: &self.counts[range],
        }))
    }
}
