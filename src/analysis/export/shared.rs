//! What plants of one origin and pod have in common, worked out once for all of them.

use crate::evidence::Evidence;
use crate::lineage::PlantRow;
use crate::registry::{OriginRow, PodRow, Registry};
use std::borrow::Cow;
use std::collections::HashMap;

/// Where a plant comes from, as far as its parents and the evidence for them go.
type Source = (OriginRow, Option<PodRow>);

/// One thing that plants of a source have in common. Founders, and plants of a muddled tray or pot, each have their own.
pub struct Shared<'e, 'r, 't, T> {
    evidence: &'e Evidence<'r, 't>,
    worked_out: HashMap<Source, T>,
    work_out: fn(&Evidence<'r, 't>, PlantRow) -> T,
}

impl<'e, 'r, 't, T: Clone> Shared<'e, 'r, 't, T> {
    /// Works it out for each source of these plants.
    pub fn of(
        evidence: &'e Evidence<'r, 't>,
        plants: &[PlantRow],
        work_out: fn(&Evidence<'r, 't>, PlantRow) -> T,
    ) -> Self {
        let mut worked_out = HashMap::new();
        for &plant in plants {
            if let Some(source) = source(evidence.registry(), plant) {
                let new = || work_out(evidence, plant);
                worked_out.entry(source).or_insert_with(new);
            }
        }
        Shared {
            evidence,
            worked_out,
            work_out,
        }
    }

    /// What a plant has in common with its siblings, or has for itself.
    pub fn by(&self, plant: PlantRow) -> Cow<'_, T> {
        let source = source(self.evidence.registry(), plant);
        match source.and_then(|source| self.worked_out.get(&source)) {
            Some(shared) => Cow::Borrowed(shared),
            None => Cow::Owned((self.work_out)(self.evidence, plant)),
        }
    }
}

/// None for a plant that no sibling speaks for.
fn source(registry: &Registry, plant: PlantRow) -> Option<Source> {
    let origin = registry.origin_of(plant)?;
    let clear =
        registry.is_surely_of_its_pod(plant) && registry.accepted_of_seedling(plant).is_none();
    clear.then(|| (origin, registry.road(plant).1))
}
