//! Rows in the order of units: founders, unseen parents, then cross by cross the seedlings and their origins.

use super::cross::Cross;
use super::mating::{Mating, Side};
use super::muddled::{Member, Muddled};
use super::origin::{Donor, Origin, Pair};
use super::parents::Named;
use super::plants::{KnownBy, Plant, Unseen};
use super::row_types::{CrossRow, OriginRow, PlantRow, PotRow};
use num_integer::Integer;
use std::collections::BTreeMap;

/// The most equally likely cases that the chances of a mixed-up seedling are counted in; beyond it they are rounded.
const MOST_CASES: u64 = 1 << 20;

/// Everything numbered.
#[derive(Default)]
pub(super) struct Numbered {
    pub rows: Vec<Plant>,
    pub origins: Vec<Origin>,
    /// Origins of pots whose pods are of other crosses.
    pub pot_origins: BTreeMap<PotRow, OriginRow>,
    /// The crosses that origins of their own may be of.
    pub muddled_origins: BTreeMap<OriginRow, Vec<CrossRow>>,
}

/// What rows are given to, and what is given so far.
pub(super) struct Rows<'a, 't> {
    pub parts: &'a mut [Cross<'t>],
    pub unseen: &'a mut [Unseen<'t>],
    pub muddled: &'a [Muddled],
    pub matings: &'a [Mating<'t>],
    pub given: Numbered,
}

impl Rows<'_, '_> {
    /// Gives every plant its row, the units in this order after `founders` founders.
    pub fn give(mut self, founders: usize, order: &[u32]) -> Numbered {
        let seedlings: usize = self.parts.iter().map(|page| page.seedling_rows.len()).sum();
        self.given
            .rows
            .reserve_exact(founders + self.unseen.len() + seedlings);
        self.given.origins.reserve_exact(self.parts.len());
        self.founders(founders);
        let unseen_of = self.unseen_of();
        let mut alone: Vec<Vec<u32>> = vec![Vec::new(); self.parts.len()];
        for plant in self.muddled {
            if let Member::Seedling(local) = plant.member {
                alone[plant.cross.index()].push(local);
            }
        }
        for page in self.parts.iter_mut() {
            page.seedlings = vec![PlantRow(u32::MAX); page.seedling_rows.len()];
        }
        for &unit in order {
            match (unit as usize).checked_sub(self.parts.len()) {
                Some(at) => self.muddled(&self.muddled[at]),
                None => {
                    let cross = CrossRow(unit);
                    let (alone, unseen) = (&alone[cross.index()], &unseen_of[cross.index()]);
                    self.cross(cross, alone, unseen);
                }
            }
        }
        self.given
    }

    /// Founders, and after them unseen parents that are not seedlings of a cross.
    fn founders(&mut self, founders: usize) {
        let founder = |record_index| Plant {
            record_index,
            local: Plant::IS_FOUNDER,
            origin: Plant::FOUNDER,
        };
        self.given.rows.extend((0..founders as u32).map(founder));
        for at in 0..self.unseen.len() as u32 {
            if !matches!(self.unseen[at as usize].known_by, KnownBy::SeedlingOf(_)) {
                self.unseen_parent(at, None);
            }
        }
    }

    /// For each cross its unseen seedlings.
    fn unseen_of(&self) -> Vec<Vec<u32>> {
        let mut of = vec![Vec::new(); self.parts.len()];
        for (at, plant) in self.unseen.iter().enumerate() {
            if let KnownBy::SeedlingOf(cross) = plant.known_by {
                of[cross.index()].push(at as u32);
            }
        }
        of
    }

    fn unseen_parent(&mut self, at: u32, origin: Option<OriginRow>) {
        self.unseen[at as usize].row = self.add(at, Plant::IS_UNSEEN, origin);
    }

    fn seedling(&mut self, cross: CrossRow, local: u32, origin: OriginRow) {
        let row = self.add(cross.0, local, Some(origin));
        self.parts[cross.index()].seedlings[local as usize] = row;
    }

    fn add(&mut self, record_index: u32, local: u32, origin: Option<OriginRow>) -> PlantRow {
        let row = PlantRow::new(self.given.rows.len());
        self.given.rows.push(Plant {
            record_index,
            local,
            origin: origin.map_or(Plant::FOUNDER, |origin| origin.0),
        });
        row
    }

    /// A seedling or a pot with an origin of its own.
    fn muddled(&mut self, of: &Muddled) {
        let origin = OriginRow::new(self.given.origins.len());
        let own = self.muddled_origin(&of.pods);
        self.given.origins.push(own);
        let crosses = of.crosses.clone();
        self.given.muddled_origins.insert(origin, crosses);
        match of.member {
            Member::Seedling(local) => self.seedling(of.cross, local, origin),
            Member::Pot(pot) => {
                let pot = PotRow {
                    cross: of.cross,
                    at: pot,
                };
                self.given.pot_origins.insert(pot, origin);
            }
        }
    }

    /// The seedlings of a cross except those that are units of their own, then the unseen ones.
    fn cross(&mut self, cross: CrossRow, alone: &[u32], unseen: &[u32]) {
        let origin = OriginRow::new(self.given.origins.len());
        let mating = &self.matings[cross.index()];
        let pairs = self.pairs(mating);
        self.given.origins.push(Origin {
            pairs,
            donor: mating.donor,
            may_be_of: Vec::new(),
        });
        self.parts[cross.index()].origin = origin;
        let mut skip = alone.iter().peekable();
        for local in 0..self.parts[cross.index()].seedling_rows.len() as u32 {
            if skip.next_if_eq(&&local).is_none() {
                self.seedling(cross, local, origin);
            }
        }
        for &at in unseen {
            self.unseen_parent(at, Some(origin));
        }
    }

    fn row_of(&self, side: Side) -> Option<PlantRow> {
        match side {
            Side::Unknown => None,
            Side::Unseen(at, _) => Some(self.unseen[at as usize].row),
            Side::Plant(Named::Founder(at), _) => Some(PlantRow(at)),
            Side::Plant(Named::Seedling { cross, local }, _) => {
                Some(self.parts[cross.index()].seedlings[local as usize])
            }
            Side::Plant(Named::Cross(_) | Named::Species(_), _) => None,
        }
    }

    fn pairs(&self, mating: &Mating) -> Vec<Pair> {
        let pairs = mating.pairs.iter();
        pairs
            .map(|&(seed, pollen, weight)| Pair {
                seed: self.row_of(seed),
                pollen: self.row_of(pollen),
                weight,
                cases: 1,
            })
            .collect()
    }

    /// All pairs of all the crosses a muddled seedling or pot may belong to; unknown parents when there is none left. It came
    /// out of one of its pods, each as likely as any other, and within a pod each pair is as likely as its page says.
    fn muddled_origin(&self, pods: &[CrossRow]) -> Origin {
        let of_pods: Vec<Vec<Pair>> = pods
            .iter()
            .map(|cross| self.pairs(&self.matings[cross.index()]))
            .collect();
        let parts_of = |pairs: &[Pair]| -> (Vec<u64>, u64) {
            let stated = pairs.iter().all(|pair| pair.weight > 0);
            let part = |pair: &Pair| if stated { u64::from(pair.weight) } else { 1 };
            let parts: Vec<u64> = pairs.iter().map(part).collect();
            let whole = parts.iter().sum::<u64>().max(1);
            (parts, whole)
        };
        let wholes = of_pods.iter().map(|pairs| parts_of(pairs).1);
        let common = wholes.fold(1_u64, |common, whole| common.lcm(&whole).min(MOST_CASES));
        let mut all: Vec<Pair> = Vec::new();
        for pairs in &of_pods {
            let (parts, whole) = parts_of(pairs);
            for (pair, part) in pairs.iter().zip(parts) {
                let cases = (common * part / whole).max(1) as u32;
                let alike = |one: &&mut Pair| (one.seed, one.pollen) == (pair.seed, pair.pollen);
                match all.iter_mut().find(alike) {
                    Some(known) => known.cases += cases,
                    None => all.push(Pair {
                        weight: 0,
                        cases,
                        ..*pair
                    }),
                }
            }
        }
        if all.is_empty() {
            return Origin::certain(None, None);
        }
        let mut may_be_of: Vec<(OriginRow, u32)> = Vec::new();
        for cross in pods {
            let origin = self.parts[cross.index()].origin;
            match may_be_of.iter_mut().find(|(known, _)| *known == origin) {
                Some((_, pods)) => *pods += 1,
                None => may_be_of.push((origin, 1)),
            }
        }
        Origin {
            pairs: all,
            donor: Donor::EachSeed,
            may_be_of,
        }
    }
}
