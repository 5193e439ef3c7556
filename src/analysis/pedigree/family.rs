//! Which plants a pedigree shows: the ancestors or descendants of what was asked for, within the generations wished.

use crate::lineage::{Family, Lineage, PlantRow};
use crate::naming::recorded::Names;
use crate::registry::{OriginRow, Registry};
use std::collections::{BTreeMap, BTreeSet};

/// What is drawn.
#[derive(Clone, Copy, Debug)]
pub struct PedigreeWishes {
    /// Crosses upward, or downward with `down`.
    pub generations: u32,
    /// Descendants instead of ancestors.
    pub down: bool,
}

/// The plants of a family by their origins.
pub(super) fn raised(registry: &Registry, family: &Family) -> BTreeMap<OriginRow, Vec<PlantRow>> {
    let mut raised: BTreeMap<OriginRow, Vec<PlantRow>> = BTreeMap::new();
    for &plant in &family.plants {
        if let Some(origin) = registry.origin_of(plant) {
            raised.entry(origin).or_default().push(plant);
        }
    }
    raised
}

/// Plants of origins no cross leads to.
pub(super) fn muddled(registry: &Registry, names: &Names) -> BTreeMap<OriginRow, Vec<PlantRow>> {
    let mut muddled: BTreeMap<OriginRow, Vec<PlantRow>> = BTreeMap::new();
    for plant in registry.plants() {
        let origin = registry.origin_of(plant);
        if let Some(origin) = origin.filter(|&origin| names.cross_of_origin(origin).is_none()) {
            muddled.entry(origin).or_default().push(plant);
        }
    }
    muddled
}

/// The family of a plant, or of the seedlings of an origin.
pub(super) fn family(
    lineage: &Lineage,
    focus: Option<PlantRow>,
    origin: Option<OriginRow>,
    wishes: PedigreeWishes,
) -> Family {
    if wishes.down {
        let start = match (focus, origin) {
            (Some(plant), _) => vec![plant],
            (None, Some(origin)) => lineage.parents_from(origin),
            (None, None) => Vec::new(),
        };
        let mut family = lineage.descendants(&start, wishes.generations);
        family.origins.extend(origin);
        let mates: BTreeSet<PlantRow> = family
            .origins
            .iter()
            .flat_map(|&origin| lineage.pedigree[origin].parents())
            .collect();
        let cut = mates
            .iter()
            .filter(|plant| lineage.pedigree.parents(**plant).next().is_some());
        let reached = |plant: &&PlantRow| {
            lineage
                .pedigree
                .origin_row(**plant)
                .is_some_and(|o| family.origins.contains(&o))
        };
        family.cut = cut.filter(|plant| !reached(plant)).copied().collect();
        family.plants.extend(mates);
        return family;
    }
    match (focus, origin) {
        (Some(plant), _) => lineage.ancestors(&[plant], wishes.generations),
        (None, Some(origin)) => {
            let parents = lineage.pedigree[origin].parents();
            let mut family = lineage.ancestors(&parents, wishes.generations.saturating_sub(1));
            family.origins.insert(origin);
            family
        }
        (None, None) => Family::default(),
    }
}
