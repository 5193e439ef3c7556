//! The photos of a plant that are on record.

use crate::record::Photo;
use crate::registry::{PlantRow, Registry};

/// The photos of a plant in the order of their days; those without one come first.
pub fn photos<'r, 't>(registry: &'r Registry<'t>, plant: PlantRow) -> Vec<&'r Photo<'t>> {
    let own = registry.seedling(plant).map(|own| &own.photos[..]);
    let founder = registry.founder(plant).map(|own| &own.photos[..]);
    let mut photos: Vec<&Photo> = own.or(founder).unwrap_or_default().iter().collect();
    photos.sort_by_key(|photo| photo.on.map(|on| registry.when(on).first));
    photos
}
