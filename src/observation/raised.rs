//! Who raised a seedling, as far as its page says: what came as a seedling was raised by somebody else.

use super::provenance::pod_of_sowing;
use crate::lineage::PlantRow;
use crate::record::{Confidence, CrossPage, Parents};
use crate::registry::Registry;

/// Who raised a plant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Raised<'r> {
    /// The grower of this registry.
    Here,
    /// The grower of another registry, by that registry's name.
    ByTeller(&'r str),
    /// It is not on record.
    NotRecorded,
}

/// Who raised a seedling; of a founder it is not on record.
pub fn raised<'r>(registry: &'r Registry, plant: PlantRow) -> Raised<'r> {
    let Some(cross) = registry.cross_of(plant) else {
        return Raised::NotRecorded;
    };
    let page = &registry[cross].page;
    let by = match &page.told_by {
        Some(told) => Raised::ByTeller(told.registry),
        None => Raised::Here,
    };
    let is_raised = !page.pollinations.is_empty()
        || seed_is_on_record(registry, plant)
        || (!came(page) && was_raised_by_its_recorder(page));
    match is_raised {
        true => by,
        false => Raised::NotRecorded,
    }
}

/// Whether a page says that something of it came from another grower. Seed comes too, but then its lot or packet is on record
/// beside the sowing.
fn came(page: &CrossPage) -> bool {
    let only_a_label = matches!(page.parents, Parents::LabelOnly(_));
    page.received.is_some() || page.from.is_some() || only_a_label
}

/// Whether the sowing of a plant names the seed it was of.
fn seed_is_on_record(registry: &Registry, plant: PlantRow) -> bool {
    let sowing = registry.road(plant).0;
    sowing.is_some_and(|row| registry[row].lot.is_some() || pod_of_sowing(registry, row).is_some())
}

/// Whether a page without a label and a source is of the grower's own plants. In a lineage that was handed over the source is
/// left out, so there only what was witnessed counts.
fn was_raised_by_its_recorder(page: &CrossPage) -> bool {
    match page.told_by {
        Some(_) => page.confidence == Confidence::Witnessed,
        None => page.confidence != Confidence::Claim || has_seed(page),
    }
}

fn has_seed(page: &CrossPage) -> bool {
    !page.pods.is_empty() || !page.seed_lots.is_empty() || !page.sowings.is_empty()
}
