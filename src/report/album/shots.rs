//! Photos of plants: which there are, and under which names they lie in an album.

use crate::lineage::PlantRow;
use crate::observation::photos::photos;
use crate::record::Photo;
use crate::registry::Registry;
use crate::report::plants::typed_or_not;

/// A photo that is on record.
#[derive(Clone, Debug)]
pub struct ShotWanted {
    /// Of which plant.
    pub plant: PlantRow,
    /// The file as recorded, relative to the registry.
    pub file: String,
    /// What it shows and when it was taken.
    pub caption: String,
}

/// A photo as it lies in the album.
#[derive(Clone, Debug)]
pub struct Shot {
    /// Path of the picture.
    pub path: String,
    /// Its width and height, pixels; none where it was not opened.
    pub size: Option<(u32, u32)>,
    /// Path of the small one for grids.
    pub small: String,
    /// Its width and height, pixels; none where it was not opened.
    pub small_size: Option<(u32, u32)>,
    /// What it shows and when it was taken.
    pub caption: String,
}

impl ShotWanted {
    /// The photo under its name in the album, with its sizes whole and small where it was opened.
    pub fn shot(&self, stem: &str, sizes: Option<[(u32, u32); 2]>) -> Shot {
        Shot {
            path: format!("{stem}.jpg"),
            size: sizes.map(|[whole, _]| whole),
            small: format!("{stem}-small.jpg"),
            small_size: sizes.map(|[_, small]| small),
            caption: self.caption.clone(),
        }
    }
}

/// The photos on record, plant by plant, the latest first.
pub fn shots_wanted(registry: &Registry) -> Vec<ShotWanted> {
    let of = |plant| {
        photos(registry, plant)
            .into_iter()
            .rev()
            .map(move |photo| ShotWanted {
                plant,
                file: photo.file.to_string(),
                caption: caption(registry, plant, photo),
            })
    };
    registry.plants().flat_map(of).collect()
}

fn caption(registry: &Registry, plant: PlantRow, photo: &Photo) -> String {
    let on = typed_or_not(registry, photo.on);
    let said = [photo.note.as_deref(), photo.light.as_deref()];
    let said: String = said.iter().flatten().map(|of| format!(", {of}")).collect();
    format!("{}{said}, {on}", registry.code(plant))
}
