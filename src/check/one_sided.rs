//! Does every plant of a mix-up say that it was mixed up?
//!
//! The mix-up counts for all of them, but which pods each may be of stands on its own record.

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::registry::{MixUp, PlantRow, Target};

/// The plants that the record of a seedling names as mixed up with it, and whose own record does not say so.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let registry = context.registry;
    let (Some(seedling), Some(cross)) = (registry.seedling(plant), registry.cross_of(plant)) else {
        return Vec::new();
    };
    let code = registry.code(plant);
    let open = seedling.muddled.iter();
    let open = open.filter(|muddle| muddle.settled.is_none());
    let named = open.flat_map(|muddle| muddle.with.iter().map(move |other| (muddle.on, *other)));
    let silent = named.filter_map(|(on, other)| {
        let row = registry.target(other).and_then(Target::plant)?;
        let only_here = |of: &MixUp| !of.is_own && of.on == on && of.with.contains(&code);
        let missing = registry.open_mix_ups(row).any(only_here);
        missing.then(|| finding(&code, (on, other)).at(context.span(registry[cross].file, other)))
    });
    silent.collect()
}

fn finding(code: &str, (on, other): (&str, &str)) -> Finding {
    Finding::warning(
        Code("mix-up-on-one-side"),
        format!("{code} was mixed up with {other}, whose record does not say so"),
    )
    .found(format!("`muddled` on the record of {code} only"))
    .needed("the mix-up on the record of each plant")
    .help(format!(
        "add `muddled: [(on: \"{on}\", with: [\"{code}\"])]` to {other}, and `one_of` where they may be of different pods: until then {other} counts as mixed up, but its parents as sure"
    ))
}
