//! Did a seedling get its number on the day its seed was sown?

use super::context::CheckContext;
use crate::diagnostic::{Code, Finding};
use crate::observation::provenance::sown;
use crate::registry::PlantRow;

/// The number of one seedling.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let found = || {
        let on = context.registry.seedling(plant)?.numbered?;
        let when = context.when(on).filter(|when| when.is_exact())?;
        if sown(context.registry, plant) != when {
            return None;
        }
        let place = context.field(context.anchor(plant)?, "numbered");
        let code = context.registry.code(plant);
        let finding = Finding::note(
            Code("numbered-when-sown"),
            format!("{code} got its number on the day its seed was sown"),
        );
        Some(
            finding
                .at(place)
                .found(format!("sown and numbered on {on}"))
                .needed("a day some weeks after the sowing, since seed does not come up at once")
                .help("correct one of the two days; if it came as a seedling, the day of the sowing is not known"),
        )
    };
    found().into_iter().collect()
}
