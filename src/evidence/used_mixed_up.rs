//! Parents that had been mixed up with siblings before they were used: which of them it was, only the tag says.

use super::doubt::Side;
use crate::record::{Day, When};
use crate::registry::{CrossRow, MixUp, MixedUp, Pair, PlantRow, Registry, Target, ZoneRow};
use std::collections::BTreeSet;

/// The parents of a cross that may have been another sibling, each with its side. Plants of other crosses say of themselves that
/// they are from one of several.
pub(super) fn used_mixed_up(
    registry: &Registry,
    (cross, zones): (CrossRow, &[ZoneRow]),
    pairs: &[Pair],
) -> BTreeSet<(Side, PlantRow)> {
    let sides = pairs.iter();
    let sides = sides.flat_map(|pair| [(Side::Seed, pair.seed), (Side::Pollen, pair.pollen)]);
    let parents = sides.filter_map(|(side, plant)| Some((side, plant?)));
    let was = |&(_, plant): &(Side, PlantRow)| {
        let mut open = registry.open_mix_ups(plant);
        open.any(|muddle| {
            !siblings(registry, plant, muddle).is_empty()
                && !used_before(registry, (cross, zones), registry.when(muddle.on))
        })
    };
    parents.filter(was).collect()
}

/// The codes of the siblings that a plant was mixed up with and is not known apart from.
pub(super) fn mixed_up_siblings<'r>(registry: &'r Registry, plant: PlantRow) -> BTreeSet<&'r str> {
    let open = registry.open_mix_ups(plant);
    open.flat_map(|muddle| siblings(registry, plant, muddle))
        .collect()
}

/// Those of one mix-up, and what they were mixed up with before. A lineage comes without the siblings, so a code that is not
/// on record counts.
fn siblings<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    muddle: &'r MixUp<'t>,
) -> BTreeSet<&'r str> {
    let cross = registry.cross_of(plant);
    if cross.is_none() || !registry.is_surely_of_its_pod(plant) {
        return BTreeSet::new();
    }
    let this = MixedUp::Plant(plant);
    let named = registry.others(this, muddle, Day::LAST);
    let others = registry.further(this, named, |_| true);
    let codes = others.into_iter().map(|of| of.code);
    let is_sibling = |code: &&str| {
        let of = registry.target(code).and_then(Target::plant);
        of.is_none_or(|of| of != plant && registry.cross_of(of) == cross)
    };
    codes.filter(is_sibling).collect()
}

/// Whether all pollinations, or else all that was harvested and sown of them, were surely before a day.
fn used_before(registry: &Registry, (cross, zones): (CrossRow, &[ZoneRow]), day: When) -> bool {
    let page = &registry[cross].page;
    let dusted = zones.iter().map(|zone| registry[*zone].on.last().copied());
    let dusted: Option<Vec<&str>> = dusted.collect();
    let harvested = page.pods.iter().filter_map(|pod| pod.harvested);
    let sown = page.sowings.iter().filter_map(|sowing| sowing.on);
    let days = match dusted {
        Some(days) if !days.is_empty() => days,
        _ => harvested.chain(sown).collect(),
    };
    !days.is_empty() && days.iter().all(|on| registry.when(on).surely_before(day))
}
