//! The weakest cross further back of an origin, worked out of those behind it when it is first asked for.

use super::strength::Strength;
use crate::registry::{OriginRow, PlantRow, Registry};
use std::collections::BTreeSet;
use std::sync::OnceLock;

/// The weakest cross behind an origin, its own not counted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Further {
    /// How that cross is known.
    pub strength: Strength,
    /// The ancestor that came of it.
    pub holder: PlantRow,
    /// The parent through which the way to it begins.
    pub through: PlantRow,
    /// Generations back to that ancestor; 1 for a parent.
    pub generations: u32,
}

impl Further {
    /// Whether it comes before another: it is weaker, or as weak and nearer.
    fn comes_before(&self, other: &Further) -> bool {
        let nearness = |of: &Further| std::cmp::Reverse(of.generations);
        (self.strength, nearness(self)) > (other.strength, nearness(other))
    }
}

/// For each origin the weakest of what holds for its ancestors, once it was asked for. All of them together take one
/// pass over the origins, in whatever order they are asked for.
pub(super) struct Behind(Vec<OnceLock<Option<Further>>>);

impl Behind {
    /// Of no origin yet.
    pub fn of(registry: &Registry) -> Behind {
        let origins = registry.origins().iter();
        Behind(origins.map(|_| OnceLock::new()).collect())
    }

    /// The weakest behind an origin: `own` of each ancestor, nothing where it is `None`. Of equally weak ones the nearest,
    /// of equally near ones that on the side of the seed parent. `own` must be the same whenever it is asked.
    pub fn weakest(
        &self,
        registry: &Registry,
        origin: OriginRow,
        own: impl Fn(PlantRow) -> Option<Strength>,
    ) -> Option<Further> {
        // Parents before their offspring, as origins are numbered.
        for origin in self.to_work_out(registry, origin) {
            let weakest = self.weakest_parent(registry, origin, &own);
            self.0[origin.index()].get_or_init(|| weakest);
        }
        self.known(origin)
    }

    fn known(&self, origin: OriginRow) -> Option<Further> {
        self.0[origin.index()].get().copied().flatten()
    }

    /// An origin with those behind it, as far as none is worked out yet.
    fn to_work_out(&self, registry: &Registry, origin: OriginRow) -> BTreeSet<OriginRow> {
        let (mut found, mut todo) = (BTreeSet::new(), vec![origin]);
        while let Some(origin) = todo.pop() {
            if self.0[origin.index()].get().is_none() && found.insert(origin) {
                let parents = registry[origin].parents().into_iter();
                todo.extend(parents.filter_map(|parent| registry.origin_of(parent)));
            }
        }
        found
    }

    fn weakest_parent(
        &self,
        registry: &Registry,
        origin: OriginRow,
        own: impl Fn(PlantRow) -> Option<Strength>,
    ) -> Option<Further> {
        let mut weakest: Option<Further> = None;
        let pairs = registry[origin].pairs.iter();
        for through in pairs.flat_map(|pair| [pair.seed, pair.pollen]).flatten() {
            let itself = own(through).map(|strength| Further {
                strength,
                holder: through,
                through,
                generations: 1,
            });
            let before = registry.origin_of(through).and_then(|of| self.known(of));
            let before = before.map(|further| Further {
                through,
                generations: further.generations + 1,
                ..further
            });
            for found in [itself, before].into_iter().flatten() {
                if weakest.is_none_or(|so_far| found.comes_before(&so_far)) {
                    weakest = Some(found);
                }
            }
        }
        weakest
    }
}
