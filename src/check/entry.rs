//! One cell before it is written: the same words as for one that is.

use super::reading_words::misread_words;
use crate::diagnostic::Finding;
use crate::observation::{Misread, value};
use crate::record::{LengthUnit, Trait};

/// The value of a cell under a heading, as [`value`] gives it.
///
/// # Errors
/// The finding `podbook check` would have, without a place; a length without a unit is none, since it could not be
/// compared with anything.
pub fn no_reading(
    declared: &Trait,
    cell: &str,
    heading: Option<LengthUnit>,
) -> Result<f64, Box<Finding>> {
    value(declared, cell, heading).map_err(|misread| {
        let mut finding = misread_words(cell, declared, misread);
        if matches!(
            misread,
            Misread::NoNumber | Misread::UnitUnknown | Misread::NoPlant
        ) {
            // What helps in a file, an empty text, is no answer at the keyboard.
            finding.help.clear();
        }
        Box::new(match misread {
            Misread::UnitUnknown => finding
                .needed("a length with its unit, such as `9.6 cm`, or the unit in the heading"),
            _ => finding,
        })
    })
}
