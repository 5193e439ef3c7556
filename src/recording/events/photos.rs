//! Photos of plants, each a file in the registry's folder.

use crate::analysis::photos::copy_name;
use crate::picture::{Picture, PictureRefusal};
use crate::record::Day;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::written::RonRecord;
use crate::registry::{PlantOrRamet, PlantRow, Registry};
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

/// The longest side of a copy, pixels.
const LONGEST: u32 = 1600;

impl NewPhoto {
    /// A photo of a plant, or of a piece of it, taken on a day; `mark` is that of the picture.
    pub fn of(
        registry: &Registry,
        shows: PlantOrRamet,
        (on, mark): (Day, &str),
        light: Option<String>,
    ) -> NewPhoto {
        let piece = registry.ramet(shows);
        NewPhoto {
            plant: shows.plant,
            file: copy_name(&registry.code_of(shows), on, mark),
            on: on.to_string(),
            light,
            note: piece.map(|piece| format!("piece {}", piece.code)),
        }
    }
}

/// A picture as it is kept: upright, scaled, without what the camera wrote beside it.
///
/// # Errors
/// If it cannot be read, or not be written as JPEG.
pub fn copy_of(bytes: &[u8]) -> Result<Vec<u8>, PictureRefusal> {
    Picture::read(bytes)?.within(LONGEST).jpeg()
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
    let what = What::InWords(format!(
        "Recorded {} of {}",
        counted(new.len(), "photo", "photos"),
        counted(plants.len(), "plant", "plants")
    ));
    Ok(Recorded::of(what, plants, ""))
}
