//! Photos of plants, each a file in the registry's folder.

use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::RonRecord;
use crate::registry::PlantRow;
use crate::wording::counted;
use std::collections::BTreeMap;

/// A photo to be recorded.
#[derive(Clone, Debug)]
pub struct NewPhoto {
    /// The plant it shows.
    pub plant: PlantRow,
    /// The file, relative to the registry's folder.
    pub file: String,
    /// The day it was taken.
    pub on: String,
    /// The light it was taken in.
    pub light: Option<String>,
    /// What it shows.
    pub note: Option<String>,
}

/// Records photos, in the order given.
///
/// # Errors
/// If there are none, or a page cannot be changed.
pub fn photos(draft: &mut Draft, new: &[NewPhoto]) -> Result<Recorded, Slip> {
    if new.is_empty() {
        return Err(Slip::nothing("there is no new photo"));
    }
    let mut by_plant: BTreeMap<PlantRow, Vec<FieldChange>> = BTreeMap::new();
    for photo in new {
        let record = RonRecord::new()
            .text("file", &photo.file)
            .text("on", &photo.on)
            .text_if("light", photo.light.as_ref())
            .text_if("note", photo.note.as_ref());
        let changes = by_plant.entry(photo.plant).or_default();
        changes.push(FieldChange::Push("photos", record.line()));
    }
    let registry = draft.registry;
    let plants: Vec<String> = by_plant.keys().map(|&plant| registry.code(plant)).collect();
    draft.change_plants(by_plant.into_iter().collect())?;
    Ok(Recorded {
        what: What::InWords(format!(
            "Recorded {} of {}",
            counted(new.len(), "photo", "photos"),
            counted(plants.len(), "plant", "plants")
        )),
        about: plants,
        tags: Vec::new(),
        remarks: Vec::new(),
    })
}
