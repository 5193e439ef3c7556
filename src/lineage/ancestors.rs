//! Everyone above or below some plants, and the part of a pedigree that matters to them.
//!
//! All walks are loops over row numbers, so depth costs nothing. Alternatives of an uncertain origin all count.

use std::collections::HashMap;

use super::agenda::Agenda;
use super::pedigree::{Origin, OriginRow, Pair, Pedigree, PlantRow};

impl Pedigree {
    /// The plants and all their ancestors, each once, ascending. Cost grows with what is found.
    pub fn with_ancestors(&self, plants: &[PlantRow]) -> Vec<PlantRow> {
        let mut agenda = Agenda::new(self.len());
        plants.iter().for_each(|plant| agenda.insert(plant.0));
        let mut found = Vec::new();
        let mut last_origin = None;
        while let Some(row) = agenda.take_last() {
            found.push(PlantRow(row));
            let origin = self.origin_row(PlantRow(row));
            if origin.is_some() && origin != last_origin {
                self.parents(PlantRow(row))
                    .for_each(|parent| agenda.insert(parent.0));
                last_origin = origin;
            }
        }
        found.reverse();
        found
    }

    /// All parents named for a plant, alternatives included; a parent named twice comes twice.
    pub fn parents(&self, plant: PlantRow) -> impl Iterator<Item = PlantRow> + '_ {
        let pairs = self.origin(plant).map_or(&[][..], |origin| &origin.pairs);
        pairs
            .iter()
            .flat_map(|pair| [pair.seed, pair.pollen])
            .flatten()
    }

    /// The pedigree of some plants alone: they and their ancestors, numbered anew in the same order.
    pub fn extract(&self, plants: &[PlantRow]) -> Extract {
        let rows = self.with_ancestors(plants);
        let mut pedigree = Pedigree::with_capacity(rows.len());
        let mut extract = Extract {
            pedigree: Pedigree::default(),
            rows,
            origins: Vec::new(),
        };
        let mut numbers = HashMap::new();
        for at in 0..extract.rows.len() {
            match self.origin_row(extract.rows[at]) {
                None => pedigree.add_founder(),
                Some(index) => {
                    // A mixed-up plant may be the only one there of an origin it may be of.
                    for index in self[index].may_be_of.iter().map(|of| of.0).chain([index]) {
                        if !numbers.contains_key(&index) {
                            let origin = extract.renumbered(&self[index], &numbers);
                            extract.origins.push(index);
                            numbers.insert(index, pedigree.add_origin(origin));
                        }
                    }
                    pedigree.add_offspring(numbers[&index])
                }
            };
        }
        extract.pedigree = pedigree;
        extract
    }
}

/// A part of a pedigree with its own numbering.
#[derive(Clone, Debug)]
pub struct Extract {
    /// The part, complete upward.
    pub pedigree: Pedigree,
    /// For each row of the part the row in the whole, ascending.
    pub rows: Vec<PlantRow>,
    /// For each origin of the part the index in the whole.
    pub origins: Vec<OriginRow>,
}

impl Extract {
    /// The row in the part of a plant of the whole; `None` if it is not in the part.
    pub fn row(&self, plant: PlantRow) -> Option<PlantRow> {
        self.rows.binary_search(&plant).ok().map(PlantRow::new)
    }

    fn renumbered(&self, origin: &Origin, numbers: &HashMap<OriginRow, OriginRow>) -> Origin {
        let row = |parent: Option<PlantRow>| parent.and_then(|plant| self.row(plant));
        let pairs = origin.pairs.iter();
        let pairs = pairs.map(|pair| Pair {
            seed: row(pair.seed),
            pollen: row(pair.pollen),
            weight: pair.weight,
            cases: pair.cases,
        });
        Origin {
            pairs: pairs.collect(),
            donor: origin.donor,
            may_be_of: origin
                .may_be_of
                .iter()
                .map(|&(of, pods)| (numbers[&of], pods))
                .collect(),
        }
    }
}
