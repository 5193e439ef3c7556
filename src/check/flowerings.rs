//! What is found on the flowerings of a plant, one by one.

use super::context::CheckContext;
use crate::diagnostic::Finding;
use crate::record::Flowering;
use crate::registry::PlantRow;

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
