//! What a plant or a cross may be by the records: the expected shares of each parentage it may have.

use super::sides::Sides;
use crate::naming::recorded::{Names, TopOf};
use crate::naming::shares;
use crate::registry::{OriginRow, PlantRow, Registry};
use std::collections::BTreeMap;

/// More parentages than these are taken together, with what differs between them open.
const MOST: usize = 64;
/// So many generations are followed; further back what differs is open.
const GENERATIONS: u32 = 24;

/// The parentages of plants, each worked out once.
pub(super) struct Possible<'a, 'r, 't> {
    registry: &'r Registry<'t>,
    names: &'a Names<'r, 't>,
    known: BTreeMap<PlantRow, Vec<Sides>>,
}

impl<'a, 'r, 't> Possible<'a, 'r, 't> {
    /// None yet.
    pub fn new(registry: &'r Registry<'t>, names: &'a Names<'r, 't>) -> Self {
        Self {
            registry,
            names,
            known: BTreeMap::new(),
        }
    }

    /// Each parentage that a plant, a cross or a community pot may have; none where the records are too deep to tell.
    pub fn of(&mut self, top: TopOf) -> Vec<Sides> {
        let origin = match top {
            TopOf::Plant(plant) => return self.of_plant(plant, GENERATIONS),
            TopOf::Cross(cross) => self.registry[cross].origin,
            TopOf::Pot(pot) => self.registry.origin_of_pot(pot),
        };
        let several = self.of_pairs(origin, GENERATIONS);
        several.unwrap_or_else(|| self.together(top))
    }

    fn of_plant(&mut self, plant: PlantRow, generations: u32) -> Vec<Sides> {
        if let Some(known) = self.known.get(&plant) {
            return known.clone();
        }
        let origin = self.registry.origin_of(plant);
        let several = origin
            .filter(|_| generations > 0)
            .and_then(|origin| self.of_pairs(origin, generations - 1));
        let sides = several.unwrap_or_else(|| self.together(TopOf::Plant(plant)));
        self.known.insert(plant, sides.clone());
        sides
    }

    /// Half of each parent, for each pair that may be the parents; `None` if there are too many.
    fn of_pairs(&mut self, origin: OriginRow, generations: u32) -> Option<Vec<Sides>> {
        let registry = self.registry;
        let mut several: Vec<Sides> = Vec::new();
        for pair in &registry[origin].pairs {
            let [seed, pollen] = [pair.seed, pair.pollen].map(|parent| match parent {
                Some(parent) => self.of_plant(parent, generations),
                None => vec![Sides::open()],
            });
            for (seed, pollen) in seed.iter().flat_map(|s| pollen.iter().map(move |p| (s, p))) {
                let child = Sides::half_of_each(seed, pollen);
                if !several.contains(&child) {
                    several.push(child);
                }
                if several.len() > MOST {
                    return None;
                }
            }
        }
        (!several.is_empty()).then_some(several)
    }

    /// The shares as they are written, with what differs between parentages open.
    fn together(&self, top: TopOf) -> Vec<Sides> {
        let formula = self.names.formula(top, false);
        let sides = shares(&formula).map(|shares| Sides::of(&shares));
        sides.into_iter().collect()
    }
}
