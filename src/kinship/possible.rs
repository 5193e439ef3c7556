//! What a kinship or an inbreeding may be, where parents are one of several.
//!
//! [`Kinship`] gives the expected value over all possibilities, which no plant need have: of three fathers one is a brother
//! and two are strangers, so the seedlings are inbred by a quarter or not at all. Here each way the parents above some
//! plants may have been is solved by itself and kept with its chance. One pair for a whole pod is one draw; a pair for
//! each seed is a draw for each plant. A mixed-up plant draws the origin it is of: then it has the parents that were drawn
//! for the plants of that origin.

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

/// What came out of a draw.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Taken {
    /// The pair at this place among those of the plant's origin.
    Pair(usize),
    /// Of a mixed-up plant: the pair at this place among those of an origin it may be of, for it alone.
    PairOf(OriginRow, usize),
    /// The parents that other plants of this origin have, which are unknown or were drawn themselves.
    ParentsOf(OriginRow),
}

/// One way the parents may have been.
#[derive(Clone, PartialEq, Debug)]
pub struct Way {
    /// What was drawn. Draws that make no difference are not among them.
    pub drawn: Vec<(Draw, Taken)>,
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
    /// How many of the plants are, or may be, of each origin.
    users: BTreeMap<OriginRow, usize>,
    /// Draws with what may come of them and the chance of each.
    draws: BTreeMap<Draw, Vec<(Taken, f64)>>,
    draw_of: BTreeMap<PlantRow, Draw>,
    /// The one draw of each pod.
    pods: BTreeMap<OriginRow, Draw>,
}

impl<'l> Lines<'l> {
    fn above(pedigree: &'l Pedigree, founding: &'l Founding, of: &[PlantRow]) -> Self {
        let mut lines = Lines {
            plants: pedigree.with_ancestors(of),
            users: BTreeMap::new(),
            pedigree,
            founding,
            draws: BTreeMap::new(),
            draw_of: BTreeMap::new(),
            pods: BTreeMap::new(),
        };
        let rows = lines.plants.iter();
        let rows = rows.filter_map(|&plant| Some((plant, pedigree.origin_row(plant)?)));
        let rows: Vec<(PlantRow, OriginRow)> = rows.collect();
        for &(_, index) in &rows {
            let may_be_of = pedigree[index].may_be_of.iter().map(|of| of.0);
            for origin in may_be_of.chain([index]) {
                *lines.users.entry(origin).or_default() += 1;
            }
        }
        for (plant, index) in rows {
            let origin = &pedigree[index];
            if !origin.may_be_of.is_empty() {
                let draw = Draw::Seed(plant);
                let taken = lines.of_mixed_up(plant, origin);
                lines.draws.insert(draw, taken);
                lines.draw_of.insert(plant, draw);
            } else if origin.pairs.len() > 1 {
                let draw = lines.draw_for(plant, index);
                lines.draw_of.insert(plant, draw);
            }
        }
        lines
    }

    /// The draw of one of several pairs: one for the whole pod, or one for the plant.
    fn draw_for(&mut self, plant: PlantRow, index: OriginRow) -> Draw {
        let origin = &self.pedigree[index];
        let draw = match origin.donor {
            Donor::WholePod => *self.pods.entry(index).or_insert(Draw::Pod(index, plant)),
            Donor::EachSeed | Donor::OneMother => Draw::Seed(plant),
        };
        let pairs = origin.chances().into_iter().enumerate();
        let pairs = pairs.map(|(place, chance)| (Taken::Pair(place), chance));
        self.draws.entry(draw).or_insert_with(|| pairs.collect());
        draw
    }

    /// What a mixed-up plant may be: of an origin whose parents others share, or of a pair of one.
    fn of_mixed_up(&mut self, plant: PlantRow, own: &Origin) -> Vec<(Taken, f64)> {
        let mut all: Vec<(Taken, f64)> = Vec::new();
        for (index, chance) in own.chances_of_origins() {
            let origin = &self.pedigree[index];
            if self.has_shared_parents(index) {
                if origin.pairs.len() > 1 {
                    self.draw_for(plant, index);
                }
                all.push((Taken::ParentsOf(index), chance));
                continue;
            }
            let pairs = origin.chances().into_iter().enumerate();
            all.extend(pairs.map(|(place, part)| (Taken::PairOf(index, place), chance * part)));
        }
        all
    }

    /// Whether other plants here have the same parents of an origin, which are unknown or one of several.
    fn has_shared_parents(&self, index: OriginRow) -> bool {
        let origin = &self.pedigree[index];
        let unknown = |pair: &Pair| pair.seed.is_none() || pair.pollen.is_none();
        origin.donor != Donor::EachSeed
            && self.users[&index] > 1
            && (origin.pairs.len() > 1 || origin.pairs.iter().any(unknown))
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
            for (draw, each) in self.draws.iter().rev() {
                let (taken, part) = each[number % each.len()];
                number /= each.len();
                chance *= part;
                drawn.insert(*draw, taken);
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
    fn world(&self, drawn: &BTreeMap<Draw, Taken>) -> (Pedigree, Founding, RowOf) {
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
                    let taken = self.draw_of.get(&plant).map(|draw| drawn[draw]);
                    let (index, pair) = match taken {
                        None => (index, 0),
                        Some(Taken::Pair(place)) => (index, place),
                        Some(Taken::PairOf(of, place)) => (of, place),
                        Some(Taken::ParentsOf(of)) => {
                            (of, self.pods.get(&of).map_or(0, |draw| place(drawn[draw])))
                        }
                    };
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
            may_be_of: Vec::new(),
        }
    }
}

/// The place of the pair that was drawn for a pod.
fn place(taken: Taken) -> usize {
    match taken {
        Taken::Pair(place) => place,
        Taken::PairOf(..) | Taken::ParentsOf(_) => unreachable!("a pod draws among its own pairs"),
    }
}

/// The ways with a draw taken together, if it makes no difference in any of them; else as they are.
fn without(ways: Vec<Way>, draw: Draw) -> Vec<Way> {
    let mut joined: Vec<Way> = Vec::new();
    for way in &ways {
        let rest: Vec<(Draw, Taken)> = way
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
