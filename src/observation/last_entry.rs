//! When something was last written of a plant that showed that it lives, and whether a stock-take missed it since.

use super::photos::photos;
use super::stock_take::{last_look, remarked_on};
use crate::lineage::PlantRow;
use crate::record::{Day, When};
use crate::registry::Registry;

/// The last day on which something was written of the living plant: a number, a mark to keep, a pot, flowers, a treatment, a
/// cutting, a photo, a remark, the last reading `read`, or a stock-take by `today` that found it.
pub fn last_entry(
    registry: &Registry,
    plant: PlantRow,
    read: Option<When>,
    today: Day,
) -> Option<When> {
    let found = last_look(registry, plant, today).filter(|(_, found)| *found);
    let numbered = registry.seedling(plant).and_then(|s| s.numbered);
    let kept = registry.kept(plant).and_then(|kept| kept.on);
    let pots = registry.all_pots(plant).map(|potting| potting.on);
    let flowered = registry
        .flowerings(plant)
        .iter()
        .flat_map(|f| [f.spike, f.opened, f.over]);
    // What was done to its place says nothing of the plant.
    let treated = registry.treatments(plant).iter();
    let own_treatments = treated.filter(|of| !of.perhaps);
    let written = numbered
        .into_iter()
        .chain(kept)
        .chain(pots)
        .chain(flowered.flatten())
        .chain(own_treatments.map(|of| of.on))
        .chain(
            registry
                .ramets(plant)
                .iter()
                .flat_map(|of| [of.cut, of.rooted])
                .flatten(),
        )
        .chain(
            photos(registry, plant)
                .into_iter()
                .filter_map(|photo| photo.on),
        );
    let dates = written.map(|on| registry.when(on));
    dates
        .chain(read)
        .chain(remarked_on(registry, plant))
        .chain(found.map(|(on, _)| on))
        .filter(|when| when.is_bounded())
        .max_by_key(|when| when.last)
}

/// The day of the last stock-take, if it did not find a plant and nothing was written of the living plant on that day or later.
pub fn not_found_since(
    registry: &Registry,
    plant: PlantRow,
    read: Option<When>,
    today: Day,
) -> Option<When> {
    let (on, _) = last_look(registry, plant, today).filter(|(_, found)| !found)?;
    let entry = last_entry(registry, plant, read, today);
    entry
        .is_none_or(|entry| entry.last < on.first)
        .then_some(on)
}
