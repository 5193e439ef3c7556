//! Do the widths of pots have a number and a unit?

use super::context::CheckContext;
use super::reading_words::unit_meant;
use crate::diagnostic::{Code, Finding};
use crate::record::{Length, LengthFault};
use crate::registry::PlantRow;

/// The pots of a founder or seedling.
pub(super) fn of_plant(context: &CheckContext, plant: PlantRow) -> Vec<Finding> {
    let Some(anchor) = context.anchor(plant) else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for pot in context.registry.all_pots(plant) {
        let text: &str = &pot.pot;
        let place = || {
            let own = context.span(anchor.file, text);
            own.or_else(|| context.span(anchor.file, pot.on))
        };
        let finding = match Length::read(text) {
            Ok(length) if length.unit.is_some() => continue,
            Ok(_) => Finding::note(Code("no-unit"), "a pot without a unit")
                .found(format!("`{text}`"))
                .needed("a number and its unit, such as `7 cm` or `3 in`")
                .help("a bare number is kept as typed and left out of comparisons"),
            Err(LengthFault::UnknownUnit) => {
                Finding::fault(Code("unknown-unit"), "this unit is not known")
                    .found(format!("`{text}`"))
                    .needed("mm, cm, m or in")
                    .did_you_mean(unit_meant(text))
            }
            Err(_) => Finding::fault(Code("bad-length"), "this is not a length")
                .found(format!("`{text}`"))
                .needed("a number and its unit, such as `7 cm` or `3 1/2 in`")
                .help("write words about the pot under `place`"),
        };
        found.push(finding.at(place()));
    }
    found
}
