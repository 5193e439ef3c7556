//! Which plants and crosses a lineage is made of.

use crate::evidence::{crosses_with_controls, shared_threads};
use crate::record::Parents;
use crate::registry::{CrossRow, KnownBy, PlantRow, Registry, ZoneRow};
use std::collections::{BTreeMap, BTreeSet};

/// A plant, its ancestors as far as they are on record, and the crosses they came from.
#[derive(Clone, Debug, Default)]
pub struct Lineage {
    /// The plants, the one that is handed over among them.
    pub plants: BTreeSet<PlantRow>,
    /// The crosses, by index.
    pub crosses: BTreeSet<CrossRow>,
    /// Zones of the whole registry with others that may be the same flowers, looked for once.
    pub(super) shared: BTreeMap<ZoneRow, ZoneRow>,
    /// Crosses of the whole registry with flowers left alone.
    pub(super) with_controls: Vec<CrossRow>,
}

impl Lineage {
    /// The lineage of a plant; every pair of parents that is possible counts.
    pub fn of(registry: &Registry, plant: PlantRow) -> Lineage {
        let mut lineage = Lineage {
            shared: shared_threads(registry),
            with_controls: crosses_with_controls(registry),
            ..Lineage::default()
        };
        let mut open = vec![plant];
        while let Some(plant) = open.pop() {
            if !lineage.plants.insert(plant) {
                continue;
            }
            if let Some(unseen) = registry.unseen(plant) {
                if let KnownBy::SeedlingOf(cross) = unseen.known_by {
                    lineage.take(registry, cross, &mut open);
                }
                continue;
            }
            if let Some(cross) = registry.cross_of(plant) {
                lineage.take(registry, cross, &mut open);
                for pod in registry
                    .seedling(plant)
                    .map_or(&[][..], |seedling| &seedling.one_of)
                {
                    let of = pod
                        .rsplit_once('.')
                        .and_then(|(cross, _)| registry.cross(cross));
                    if let Some(of) = of {
                        lineage.take(registry, of, &mut open);
                    }
                }
            }
        }
        lineage
    }

    /// Adds a cross with its parents.
    fn take(&mut self, registry: &Registry, cross: CrossRow, open: &mut Vec<PlantRow>) {
        if !self.crosses.insert(cross) {
            return;
        }
        let of = &registry[cross];
        open.extend(registry[of.origin].parents());
        // Plants that shed pollen near an open pollination are named on its page.
        if let Parents::Open { near, .. } = &of.page.parents {
            let named = near
                .iter()
                .filter_map(|code| registry.target(code)?.plant());
            open.extend(named);
        }
        // Pots in doubt name pods of other crosses, and the seedlings numbered out of them may be of those.
        for pot in &of.page.community_pots {
            for pod in &pot.one_of {
                let other = pod
                    .rsplit_once('.')
                    .and_then(|(cross, _)| registry.cross(cross));
                if let Some(other) = other {
                    self.take(registry, other, open);
                }
            }
        }
    }
}
