//! The expected share of one part in every plant as a plain number, alternatives averaged by their chances.
//!
//! For figures that need a number even where a parent is one of several; shares as told to a grower are exact and
//! keep what is unsure apart, see [`super::shares`].

use crate::lineage::{OriginRow, Pedigree, PlantRow};

use super::founders::Founders;
use super::part::Part;

/// Expected shares of one part.
pub(super) struct ExpectedShares {
    /// Founders with both sides, ascending.
    founders: Vec<(PlantRow, [f64; 2])>,
    origins: Vec<f64>,
    /// The share in an unknown parent: 1 if the part is the unknown one, else 0.
    unknown: f64,
}

/// Computes the expected share of a part in all plants; "one of" shares and provisional names of received labels count
/// as unknown too.
pub(super) fn expected_shares(
    pedigree: &Pedigree,
    founders: &Founders,
    part: Part,
) -> ExpectedShares {
    let unknown = if part == Part::Unknown { 1.0 } else { 0.0 };
    let mut shares = ExpectedShares {
        founders: Vec::new(),
        origins: Vec::new(),
        unknown,
    };
    for plant in pedigree
        .plants()
        .filter(|&plant| pedigree.origin_row(plant).is_none())
    {
        let sides = founders.descent(plant).sides().map(|side| {
            let matching = side
                .approximate()
                .into_iter()
                .filter(|&(held, _)| counts_as(founders, held, part));
            matching.map(|(_, share)| share).sum()
        });
        shares.founders.push((plant, sides));
    }
    for origin in pedigree.origins() {
        let of_parent =
            |parent: Option<PlantRow>| parent.map_or(unknown, |plant| shares.of(pedigree, plant));
        let pairs = origin.pairs.iter().zip(origin.chances());
        let share = pairs
            .map(|(pair, chance)| 0.5 * chance * (of_parent(pair.seed) + of_parent(pair.pollen)))
            .sum();
        shares.origins.push(share);
    }
    shares
}

fn counts_as(founders: &Founders, held: Part, part: Part) -> bool {
    held == part || part == Part::Unknown && founders.compared_as(held) == Part::Unknown
}

impl ExpectedShares {
    /// The share in a plant.
    pub(super) fn of(&self, pedigree: &Pedigree, plant: PlantRow) -> f64 {
        match pedigree.origin_row(plant) {
            Some(origin) => self.origins[origin.index()],
            None => self.sides(plant).iter().sum::<f64>() / 2.0,
        }
    }

    /// The share in the plants of an origin.
    pub(super) fn of_origin(&self, origin: OriginRow) -> f64 {
        self.origins[origin.index()]
    }

    /// The share in an unknown parent.
    pub(super) fn of_unknown(&self) -> f64 {
        self.unknown
    }

    /// The shares of a founder's seed side and pollen side.
    pub(super) fn sides(&self, founder: PlantRow) -> [f64; 2] {
        let at = self
            .founders
            .binary_search_by_key(&founder, |entry| entry.0)
            .expect("every founder has shares");
        self.founders[at].1
    }
}
