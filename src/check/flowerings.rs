//! What is found on the flowerings of a plant, one by one; and which of them a pollination names.

use super::context::CheckContext;
use crate::diagnostic::Finding;
use crate::record::{Flowering, Pollination, parents};
use crate::registry::{CrossRow, PlantRow};

/// The findings on the flowerings of a founder or seedling, each at one field of its flowering.
pub(super) fn of_flowerings(
    context: &CheckContext,
    (plant, field): (PlantRow, &str),
    finding: impl Fn(&Flowering) -> Option<Finding>,
) -> Vec<Finding> {
    let Some(anchor) = context.anchor(plant) else {
        return Vec::new();
    };
    let flowerings = context.registry.flowerings(plant).iter().enumerate();
    flowerings
        .filter_map(|(at, flowering)| {
            let place = format!("flowerings[{at}].{field}");
            Some(finding(flowering)?.at(context.field(anchor, &place)))
        })
        .collect()
}

/// The plants that may have borne the spike of a pollination: the one it names, or every seed parent of the cross that is on
/// record. `None` when it names one that is not on record.
pub(super) fn bearers(
    context: &CheckContext,
    cross: CrossRow,
    pollination: &Pollination,
) -> Option<Vec<PlantRow>> {
    if let Some(code) = pollination.plant {
        return Some(vec![context.registry.target(code)?.plant()?]);
    }
    let seeds = parents(context.page(cross)).into_iter();
    let seeds = seeds.filter(|parent| parent.bore_the_seed);
    Some(
        seeds
            .filter_map(|parent| context.plant(parent.code))
            .collect(),
    )
}
