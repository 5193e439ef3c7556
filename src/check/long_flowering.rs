//! Did flowers stay open longer than any do? Then a date is a slip, most often a wrong year.

use super::context::CheckContext;
use super::flowerings::of_flowerings;
use crate::diagnostic::{Code, Finding};
use crate::observation::spike_days::NO_LONGER;
use crate::record::Flowering;
use crate::registry::PlantRow;

/// The flowerings of a founder or seedling.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    of_flowerings(context, (plant, "over"), |of| warning(context, plant, of))
}

fn warning(context: &CheckContext, plant: PlantRow, flowering: &Flowering) -> Option<Finding> {
    let (opened, over) = (flowering.opened?, flowering.over?);
    let (from, to) = (context.when(opened)?, context.when(over)?);
    let (least, _) = from.days_until(to)?;
    (least > NO_LONGER).then(|| {
        let code = context.registry.code(plant);
        Finding::warning(
            Code("flowers-open-too-long"),
            format!("the flowers of {code} were open for at least {least} days"),
        )
        .found(format!("opened `{opened}`, over `{over}`"))
        .needed("a few weeks: growers report up to two months")
        .help("is the year of one of the dates right?")
        .help("forecasts of flowers leave this spike out")
    })
}
