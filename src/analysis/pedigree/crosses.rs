//! The crosses of a pedigree: one for each pairing of parents that must be told apart.
//!
//! Several fathers of one mother are one cross with "one of" or "mixed" pollen. Pairs that differ on both sides, as after
//! a muddled tray, are crosses of their own, so that the picture never pairs a mother with the other one's father.

use super::drawn::DrawnParent;
use super::work::Work;
use crate::evidence::{Direction, Doubt, Side, Unit};
use crate::lineage::{Donor, Origin, Pair, PlantRow};
use crate::registry::{CrossRow, OriginRow, PodRow, PotRow};
use std::collections::{BTreeMap, BTreeSet};

/// One cross of a pedigree. Rows are places in the list of its members.
#[derive(Clone, Debug, PartialEq)]
pub struct PedigreeCross {
    /// The cross on record.
    pub codes: CrossCodes,
    /// The seed parent.
    pub seed: DrawnParent,
    /// The pollen parent.
    pub pollen: DrawnParent,
    /// The chance of each plant that may be a parent of it, 0 to 1, where it was stated; else empty.
    pub chances: Vec<(usize, f64)>,
    /// Whether it is known which of the two bore the seed.
    pub direction_known: bool,
    /// Whether stray pollen was seen beside it, so that the pollen parent is only probable.
    pub father_probable: bool,
    /// Whether it is less sure than a tag that the seed parent is the one drawn.
    pub seed_doubtful: bool,
    /// The same of the pollen parent.
    pub pollen_doubtful: bool,
    /// Rows of the plants raised from it that are drawn.
    pub children: Vec<usize>,
    /// How many more siblings there are that are not drawn.
    pub more_siblings: u64,
}

impl PedigreeCross {
    /// Marks the parents of which it is less sure than a tag that they are those drawn, and a father beside whom stray
    /// pollen was seen: by what is recorded of this cross, not of another that the seedlings may be of.
    pub(super) fn doubt(&mut self, stated: &[(CrossRow, Doubt)]) {
        let own = || {
            let own = stated.iter().filter(|(cross, _)| self.codes.may_be(*cross));
            own.map(|(_, doubt)| doubt)
        };
        let is_weak = |side| own().any(|doubt| doubt.weakens(side));
        let strayed = own().any(|doubt| doubt.leaves_father_probable());
        let (seed, pollen) = (is_weak(Side::Seed), is_weak(Side::Pollen));
        self.father_probable = strayed && !self.pollen.rows().is_empty();
        (self.seed_doubtful, self.pollen_doubtful) = (seed, pollen);
    }
}

/// The cross on record that a pairing belongs to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CrossCodes {
    /// This one.
    One(CrossRow),
    /// One of these, of a muddled tray or pot.
    OneOf(Vec<CrossRow>),
    /// None of the crosses a muddled tray may be of has these parents.
    MuddledTray,
}

impl CrossCodes {
    /// Whether the pairing may be of this cross.
    fn may_be(&self, cross: CrossRow) -> bool {
        match self {
            CrossCodes::One(own) => *own == cross,
            CrossCodes::OneOf(crosses) => crosses.contains(&cross),
            CrossCodes::MuddledTray => true,
        }
    }
}

impl Work<'_, '_, '_> {
    /// The crosses that seedlings of one origin may come from; `children` are their rows and how many more there are.
    pub fn crosses(
        &self,
        origin: OriginRow,
        rows: &BTreeMap<PlantRow, usize>,
        children: (Vec<usize>, u64),
    ) -> Vec<PedigreeCross> {
        let of = &self.lineage.pedigree[origin];
        let cross = self.names.cross_of_origin(origin);
        let direction_lost = self.direction_lost(cross);
        let mut crosses = Vec::new();
        for pairs in groups(&of.pairs) {
            let (codes, donor) = match cross {
                Some(cross) => (CrossCodes::One(cross), of.donor),
                None => self.possible_cross(origin, &pairs),
            };
            crosses.push(PedigreeCross {
                codes,
                seed: side(&pairs, |pair| pair.seed, (rows, donor)),
                pollen: side(&pairs, |pair| pair.pollen, (rows, donor)),
                chances: chances(of, rows),
                direction_known: !direction_lost,
                father_probable: false,
                seed_doubtful: false,
                pollen_doubtful: false,
                // Told once, with the first of the crosses they may come from.
                more_siblings: if crosses.is_empty() { children.1 } else { 0 },
                children: children.0.clone(),
            });
        }
        crosses
    }

    /// Those whose evidence is that of a cross drawn.
    fn units_of(&self, origin: OriginRow, asked: Option<Unit>) -> Vec<Unit> {
        let plants = self.raised.get(&origin).into_iter().flatten();
        let plants = plants.map(|&plant| Unit::Plant(plant));
        let mut units: Vec<Unit> = asked.into_iter().chain(plants).collect();
        if units.is_empty() {
            units.extend(self.names.cross_of_origin(origin).map(Unit::Cross));
        }
        units
    }

    /// What is recorded of the parents of what is drawn of an origin, each with the cross it is recorded of: of what was asked
    /// for and every plant drawn, else of the cross.
    pub fn stated(&self, origin: OriginRow, asked: Option<Unit>) -> Vec<(CrossRow, Doubt)> {
        let units = self.units_of(origin, asked).into_iter();
        let own = units.filter_map(|unit| self.context.evidence().statement(unit));
        own.flat_map(|own| own.doubts).collect()
    }

    fn direction_lost(&self, cross: Option<CrossRow>) -> bool {
        let own = cross.and_then(|cross| self.context.evidence().statement(Unit::Cross(cross)));
        own.is_some_and(|own| own.direction == Direction::Lost)
    }

    /// The recorded crosses that a muddled seedling may have these parents of, and how their pollen is known.
    fn possible_cross(&self, origin: OriginRow, pairs: &[Pair]) -> (CrossCodes, Donor) {
        let mut crosses: Vec<CrossRow> = self
            .pods_of(origin)
            .into_iter()
            .map(|pod| pod.cross)
            .collect();
        crosses.sort_unstable();
        crosses.dedup();
        let has = |of: &Pair| {
            pairs
                .iter()
                .any(|pair| of.seed == pair.seed && of.pollen == pair.pollen)
        };
        let origin = |cross: CrossRow| &self.registry[self.registry[cross].origin];
        crosses.retain(|&cross| origin(cross).pairs.iter().any(has));
        match crosses[..] {
            [] => (CrossCodes::MuddledTray, Donor::WholePod),
            [cross] => (CrossCodes::One(cross), origin(cross).donor),
            // Fathers of several crosses: one of them, and never a mixture.
            _ => (CrossCodes::OneOf(crosses), Donor::WholePod),
        }
    }

    /// The pods that seedlings of a muddled tray or pot with this origin may be of.
    fn pods_of(&self, origin: OriginRow) -> Vec<PodRow> {
        let registry = self.registry;
        if let Some(&plant) = self.muddled.get(&origin).and_then(|plants| plants.first()) {
            return registry.pods_it_may_be_of(plant);
        }
        let pot = self.pots_of(origin).into_iter().next();
        pot.map_or(Vec::new(), |pot| registry.pods_of_pot(pot))
    }

    /// The community pots whose seedlings have this origin.
    pub fn pots_of(&self, origin: OriginRow) -> Vec<PotRow> {
        let registry = self.registry;
        let crosses = registry.cross_rows();
        let pots = crosses.flat_map(|cross| registry.community_pots(cross));
        let pots = pots.map(|(pot, _)| pot);
        pots.filter(|&pot| registry.origin_of_pot(pot) == origin)
            .collect()
    }
}

/// Pairs that one cross mark can stand for: they share a parent, and all or none of them know the other.
fn groups(pairs: &[Pair]) -> Vec<Vec<Pair>> {
    let shared = |pick: fn(&Pair) -> Option<PlantRow>, other: fn(&Pair) -> Option<PlantRow>| {
        let first = pairs.first();
        first.is_none_or(|first| {
            pairs.iter().all(|pair| {
                pick(pair) == pick(first) && other(pair).is_some() == other(first).is_some()
            })
        })
    };
    if shared(|pair| pair.seed, |pair| pair.pollen) || shared(|pair| pair.pollen, |pair| pair.seed)
    {
        return vec![pairs.to_vec()];
    }
    let mut groups: Vec<Vec<Pair>> = Vec::new();
    for pair in pairs {
        let fits = |group: &&mut Vec<Pair>| {
            group[0].seed == pair.seed && group[0].pollen.is_some() == pair.pollen.is_some()
        };
        match groups.iter_mut().find(fits) {
            Some(group) => group.push(*pair),
            None => groups.push(vec![*pair]),
        }
    }
    groups
}

/// The chance of each plant drawn to be a parent, where the chances of the pairs are stated.
fn chances(of: &Origin, rows: &BTreeMap<PlantRow, usize>) -> Vec<(usize, f64)> {
    if of.pairs.len() < 2 || of.weights().is_none() {
        return Vec::new();
    }
    let mut sums: BTreeMap<usize, f64> = BTreeMap::new();
    for (pair, chance) in of.pairs.iter().zip(of.chances()) {
        let parents: BTreeSet<PlantRow> = [pair.seed, pair.pollen].into_iter().flatten().collect();
        for row in parents.iter().filter_map(|plant| rows.get(plant)) {
            *sums.entry(*row).or_default() += chance;
        }
    }
    sums.into_iter().collect()
}

fn side(
    pairs: &[Pair],
    pick: fn(&Pair) -> Option<PlantRow>,
    of: (&BTreeMap<PlantRow, usize>, Donor),
) -> DrawnParent {
    let (rows, donor) = of;
    let mut met = BTreeSet::new();
    let drawn = pairs
        .iter()
        .filter_map(pick)
        .filter_map(|plant| rows.get(&plant));
    let members: Vec<usize> = drawn.copied().filter(|&row| met.insert(row)).collect();
    match (members.len(), donor) {
        (0, _) => DrawnParent::Unknown,
        (1, _) => DrawnParent::Known(members[0]),
        (_, Donor::EachSeed) => DrawnParent::Mixed(members),
        _ => DrawnParent::OneOf(members),
    }
}
