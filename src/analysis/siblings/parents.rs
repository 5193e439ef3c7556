//! What was read of the parents of siblings, and of the plants that may be one.

use crate::lineage::PlantRow;
use crate::observation::scope::{Scope, with_siblings};
use crate::observation::series::{comparable, own_by_day};
use crate::observation::trait_unit::TraitUnit;
use crate::registry::{Pair, Registry, TraitRow};
use serde::Serialize;
use std::collections::BTreeMap;

/// Plants that are named; more that may be a parent are counted.
const NAMED: usize = 8;

/// A parent's latest reading; its age and pot differ from the siblings'.
#[derive(Clone, Debug, Serialize)]
pub struct ParentValue {
    /// Its code.
    pub plant: String,
    /// Whether it bore the seed, if it is a parent; `null` when the direction is not certain.
    pub bore_the_seed: Option<bool>,
    /// Whether it is a parent for certain, not one of several that may be.
    pub certain: bool,
    /// Its value in the unit shown.
    pub value: f64,
}

/// Plants that may be a parent and were not read, or are more than are named.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct OtherParents {
    /// Whether they bore the seed, if they did; `null` when the direction is not certain.
    pub bore_the_seed: Option<bool>,
    /// How many.
    pub n: usize,
}

/// A parent, or a plant that may be one.
#[derive(Clone, Copy)]
struct Parent {
    plant: PlantRow,
    bore_the_seed: Option<bool>,
    certain: bool,
}

/// The latest reading of the trait on each parent, the certain ones first, and how many more may be one.
pub fn parents(
    registry: &Registry,
    scope: Scope,
    index: TraitRow,
    unit: &TraitUnit,
) -> (Vec<ParentValue>, Vec<OtherParents>) {
    let origin = registry[scope.cross].origin;
    let pairs = &registry[origin].pairs;
    let all = registry[origin].parents().into_iter();
    let mut all: Vec<Parent> = all.map(|plant| Parent::of(plant, pairs)).collect();
    all.sort_by_key(|of| (!of.certain, of.bore_the_seed == Some(false)));
    let plants: Vec<PlantRow> = all.iter().map(|of| of.plant).collect();
    let (readings, _) = comparable(registry, &plants, index);
    let value = |of: &Parent| {
        let mut own = readings.chunk_by(|a, b| a.plant == b.plant);
        let own = own.find(|own| own[0].plant == of.plant)?;
        let beside = || comparable(registry, &with_siblings(registry, of.plant), index).0;
        let has_mean = registry[index].reads.has_mean();
        let (own, _) = own_by_day(registry, own, beside, has_mean);
        Some(ParentValue {
            plant: registry.code(of.plant),
            bore_the_seed: of.bore_the_seed,
            certain: of.certain,
            value: unit.shown(own.last()?.value),
        })
    };
    let named: Vec<ParentValue> = all.iter().filter_map(value).take(NAMED).collect();
    let mut others: BTreeMap<Option<bool>, usize> = BTreeMap::new();
    for of in all.iter().filter(|of| !of.certain) {
        *others.entry(of.bore_the_seed).or_default() += 1;
    }
    for of in named.iter().filter(|of| !of.certain) {
        *others.entry(of.bore_the_seed).or_default() -= 1;
    }
    let others = others.into_iter().filter(|(_, n)| *n > 0);
    let others = others.map(|(bore_the_seed, n)| OtherParents { bore_the_seed, n });
    (named, others.collect())
}

impl Parent {
    /// On which side a plant stands in the pairs that it is in, and whether it is in all.
    fn of(plant: PlantRow, pairs: &[Pair]) -> Parent {
        let seed = |pair: &&Pair| pair.seed == Some(plant);
        let pollen = |pair: &&Pair| pair.pollen == Some(plant);
        let (bore, sired) = (
            pairs.iter().any(|of| seed(&of)),
            pairs.iter().any(|of| pollen(&of)),
        );
        Parent {
            plant,
            bore_the_seed: (bore != sired).then_some(bore),
            certain: pairs.iter().all(|of| seed(&of) || pollen(&of)),
        }
    }
}
