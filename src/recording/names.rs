//! Names on a label that `species.ron` lacks: those the starter list knows go in with the recording that brings the label.

use super::draft::Draft;
use super::slip::Slip;
use crate::naming::recorded::{MissingNames, missing_names};
use crate::registry::starter_record;
use crate::wording::listed;

/// Adds the names of a label that the starter list knows to `species.ron`, and says which; nothing where the label can be
/// read as it is, or cannot be read even so.
///
/// # Errors
/// If the page of the species cannot be changed.
pub fn names_taken_in(draft: &mut Draft, label: &str) -> Result<Vec<String>, Slip> {
    take_in(draft, missing_names(draft.registry, label))
}

/// Adds names that the starter list knows to `species.ron`, and says which.
///
/// # Errors
/// If the page of the species cannot be changed.
pub fn take_in(draft: &mut Draft, missing: MissingNames) -> Result<Vec<String>, Slip> {
    let mut names = Vec::new();
    for (list, epithets) in [
        ("species", missing.species),
        ("named_hybrids", missing.named_hybrids),
    ] {
        for epithet in epithets {
            if let Some(record) = starter_record(list, &epithet) {
                draft.species()?.append(list, &[record.to_owned()])?;
                names.push(epithet);
            }
        }
    }
    let were = match names.len() {
        0 => return Ok(Vec::new()),
        1 => "was",
        _ => "were",
    };
    Ok(vec![format!(
        "{} {were} not in species.ron; added from the list a new registry starts with. Check what it says there",
        listed(&names)
    )])
}
