//! What a kinship or an inbreeding may be, where parents are one of several.
//!
//! [`Kinship`] gives the expected value over all possibilities, which no plant need have: of three fathers one is a brother
//! and two are strangers, so the seedlings are inbred by a quarter or not at all. Here each way the parents above some
//! plants may have been is solved by itself and kept with its chance. One pair for a whole pod is one draw; a pair for
//! each seed is a draw for each plant.

use std::collections::BTreeMap;

use crate::lineage::{
    Donor, Founding, Origin, OriginRow, Pair, Pedigree, PedigreeTooComplex, PlantRow,
};

use super::relations::Kinship;

/// Ways beyond which they are not gone through.
const MOST: usize = 256;
/// Values closer than this are one.
const SAME: f64 = 1e-12;

/// Parents that were drawn, nobody knows which.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Draw {
    /// One pair for all plants of an origin; the plant is the first of them that matters here.
    Pod(OriginRow, PlantRow),
    /// A pair for one plant.
    Seed(PlantRow),
}

/// One way the parents may have been.
#[derive(Clone, PartialEq, Debug)]
pub struct Way {
    /// What was drawn: the origin, the place of the pair in it. Draws that make no difference are not among them.
    pub drawn: Vec<(Draw, usize)>,
    /// Its chance; all ways sum to 1.
    pub chance: f64,
    /// The figure, 0 to 1.
    pub value: f64,
}

/// All the ways, in the order of the pairs on record.
#[derive(Clone, PartialEq, Debug)]
pub struct Possible {
    /// At least one.
    pub ways: Vec<Way>,
}

impl Possible {
    /// The values there are, ascending, each with its chance.
    pub fn outcomes(&self) -> Vec<(f64, f64)> {
        let mut outcomes: Vec<(f64, f64)> = self
            .ways
            .iter()
            .map(|way| (way.value, way.chance))
            .collect();
        outcomes.sort_by(|a, b| a.0.total_cmp(&b.0));
        outcomes.dedup_by(|next, kept| {
            let same = next.0 - kept.0 <= SAME;
            if same {
                kept.1 += next.1;
            }
            same
        });
        outcomes
    }

    /// The chance that the value lies above a cap.
    pub fn chance_above(&self, cap: f64) -> f64 {
        let above = self.ways.iter().filter(|way| way.value > cap + SAME);
        above.map(|way| way.chance).sum()
    }
}

/// What the kinship of two plants may be; of one plant with itself ½ (1 + F). `None` where the ways are more than 256.
///
/// # Errors
/// [`PedigreeTooComplex`] as for [`Kinship::of`].
pub fn possible_kinship(
    pedigree: &Pedigree,
    founding: &Founding,
    [one, other]: [PlantRow; 2],
) -> Result<Option<Possible>, PedigreeTooComplex> {
    let lines = Lines::above(pedigree, founding, &[one, other]);
    lines.possible(|kinship, row_of| kinship.pair(row_of[&one], row_of[&other]))
}

/// What the inbreeding of a plant may be; `None` where the ways are more than 256.
///
/// # Errors
/// [`PedigreeTooComplex`] as for [`Kinship::of`].
pub fn possible_inbreeding(
    pedigree: &Pedigree,
    founding: &Founding,
    plant: PlantRow,
) -> Result<Option<Possible>, PedigreeTooComplex> {
    let lines = Lines::above(pedigree, founding, &[plant]);
    lines.possible(|kinship, row_of| kinship.inbreeding(row_of[&plant]))
}

/// Rows in a world, by rows of the pedigree.
type RowOf = BTreeMap<PlantRow, PlantRow>;

/// The plants above some others, with what was drawn among them.
struct Lines<'l> {
    pedigree: &'l Pedigree,
    founding: &'l Founding,
    plants: Vec<PlantRow>,
    /// Draws with the chances of their pairs.
    draws: BTreeMap<Draw, Vec<f64>>,
    draw_of: BTreeMap<PlantRow, Draw>,
}

impl<'l> Lines<'l> {
    fn above(pedigree: &'l Pedigree, founding: &'l Founding, of: &[PlantRow]) -> Self {
        let mut lines = Lines {
            plants: pedigree.with_ancestors(of),
            pedigree,
            founding,
            draws: BTreeMap::new(),
            draw_of: BTreeMap::new(),
        };
        let mut pods: BTreeMap<OriginRow, Draw> = BTreeMap::new();
        for &plant in &lines.plants {
            let Some(index) = pedigree.origin_row(plant) else {
                continue;
            };
            let origin = &pedigree[index];
            if origin.pairs.len() == 1 {
                continue;
            }
            let draw = match origin.donor {
                Donor::WholePod => *pods.entry(index).or_insert(Draw::Pod(index, plant)),
                Donor::EachSeed => Draw::Seed(plant),
            };
            lines.draws.insert(draw, origin.chances());
            lines.draw_of.insert(plant, draw);
        }
        lines
    }

    fn possible(
        &self,
        value: impl Fn(&Kinship, &RowOf) -> f64,
    ) -> Result<Option<Possible>, PedigreeTooComplex> {
        let counts = self.draws.values().map(Vec::len);
        let count = counts.fold(1usize, |all, pairs| all.saturating_mul(pairs));
        if count > MOST {
            return Ok(None);
        }
        let mut ways = Vec::with_capacity(count);
        for mut number in 0..count {
            let (mut drawn, mut chance) = (BTreeMap::new(), 1.0);
            // The last draw changes fastest.
            for (draw, chances) in self.draws.iter().rev() {
                let pair = number % chances.len();
                number /= chances.len();
                chance *= chances[pair];
                drawn.insert(*draw, pair);
            }
            let (pedigree, founding, row_of) = self.world(&drawn);
            let kinship = Kinship::of(&pedigree, &founding)?;
            ways.push(Way {
                value: value(&kinship, &row_of),
                drawn: drawn.into_iter().collect(),
                chance,
            });
        }
        for draw in self.draws.keys() {
            ways = without(ways, *draw);
        }
        Ok(Some(Possible { ways }))
    }

    /// The pedigree as it was, if these pairs were drawn.
    fn world(&self, drawn: &BTreeMap<Draw, usize>) -> (Pedigree, Founding, RowOf) {
        let mut pedigree = Pedigree::default();
        let mut founding = Founding::with_background(self.founding.background().to_vec());
        if let Some(stock) = self.founding.unknown_parents() {
            founding.declare_unknown_parents(stock);
        }
        let (mut row_of, mut origins) = (RowOf::new(), BTreeMap::new());
        for &plant in &self.plants {
            let row = match self.pedigree.origin_row(plant) {
                None => {
                    let row = pedigree.add_founder();
                    if let Some(stock) = self.founding.stock(plant) {
                        founding.declare(row, stock.clone());
                    }
                    row
                }
                Some(index) => {
                    let pair = self.draw_of.get(&plant).map_or(0, |draw| drawn[draw]);
                    let origin = *origins
                        .entry((index, pair))
                        .or_insert_with(|| pedigree.add_origin(self.certain(index, pair, &row_of)));
                    pedigree.add_offspring(origin)
                }
            };
            row_of.insert(plant, row);
        }
        (pedigree, founding, row_of)
    }

    fn certain(&self, index: OriginRow, pair: usize, row_of: &RowOf) -> Origin {
        let origin = &self.pedigree[index];
        let [seed, pollen] = [origin.pairs[pair].seed, origin.pairs[pair].pollen]
            .map(|parent| parent.map(|plant| row_of[&plant]));
        Origin {
            pairs: vec![Pair {
                seed,
                pollen,
                weight: 0,
                cases: 1,
            }],
            donor: origin.donor,
        }
    }
}

/// The ways with a draw taken together, if it makes no difference in any of them; else as they are.
fn without(ways: Vec<Way>, draw: Draw) -> Vec<Way> {
    let mut joined: Vec<Way> = Vec::new();
    for way in &ways {
        let rest: Vec<(Draw, usize)> = way
            .drawn
            .iter()
            .copied()
            .filter(|of| of.0 != draw)
            .collect();
        match joined.iter_mut().find(|other| other.drawn == rest) {
            Some(other) if (other.value - way.value).abs() > SAME => return ways,
            Some(other) => other.chance += way.chance,
            None => joined.push(Way {
                drawn: rest,
                ..*way
            }),
        }
    }
    joined
}
