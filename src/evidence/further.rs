//! The weakest cross further back, for every origin, in one pass from founders to seedlings.

use super::strength::Strength;
use crate::registry::{PlantRow, Registry};
use std::collections::BTreeMap;

/// The weakest cross behind an origin, its own not counted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Further {
    /// How that cross is known.
    pub strength: Strength,
    /// The ancestor that came of it.
    pub holder: PlantRow,
    /// The parent through which the way to it begins.
    pub through: PlantRow,
}

/// For every origin the weakest of what holds for ancestors: `own` of each, nothing where it is `None`. Of equally weak
/// ones the nearest along the first parent that leads to one.
pub(super) fn weakest_behind(
    registry: &Registry,
    own: impl Fn(PlantRow) -> Option<Strength>,
) -> Vec<Option<Further>> {
    let mut known: BTreeMap<PlantRow, Option<Strength>> = BTreeMap::new();
    let mut behind: Vec<Option<Further>> = Vec::with_capacity(registry.origins().len());
    for origin in registry.origins() {
        let mut weakest: Option<Further> = None;
        for through in origin.parents() {
            let own = *known.entry(through).or_insert_with(|| own(through));
            let itself = own.map(|strength| Further {
                strength,
                holder: through,
                through,
            });
            let before = registry
                .origin_of(through)
                .and_then(|of| behind[of.index()]);
            let before = before.map(|further| Further { through, ..further });
            for found in [itself, before].into_iter().flatten() {
                if weakest.is_none_or(|so_far| found.strength > so_far.strength) {
                    weakest = Some(found);
                }
            }
        }
        behind.push(weakest);
    }
    behind
}
