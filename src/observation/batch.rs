//! Which seedlings of a cross grew up together.

use crate::registry::{PlantRow, PodRow, Registry, SowingRow};

/// What seedlings share besides their cross.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Batch {
    /// Their pod.
    Pod(PodRow),
    /// Their sowing; which pod it was of is not known.
    Sowing(SowingRow),
}

/// The batch of a seedling; `None` when neither pod nor sowing is known, and for a founder.
pub fn batch(registry: &Registry, plant: PlantRow) -> Option<Batch> {
    let (sowing, pod, _) = registry.road(plant);
    pod.map(Batch::Pod).or(sowing.map(Batch::Sowing))
}
