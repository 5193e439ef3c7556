//! What a plant is called on a picture of its cross.

use crate::lineage::PlantRow;
use crate::registry::Registry;

/// The number of a seedling on its page; the whole code of a plant that is on none.
pub(super) fn page_number(registry: &Registry, plant: PlantRow) -> String {
    let number = registry.number(plant).map(str::to_owned);
    number.unwrap_or_else(|| registry.code(plant))
}
