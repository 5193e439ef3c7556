//! The page of one species: what the list says of it, its founders, and the crosses with it.

use super::plant::Door;
use super::whole::Album;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::report::show::{ShowReport, show};
use crate::wording::Name;

/// A cross with the species in it.
pub struct SpeciesCrossRow {
    /// The cross.
    pub door: Door,
    /// Name of its seedlings.
    pub name: Name,
    /// Expected share of the species; `None` when it cannot be told exactly.
    pub share: Option<String>,
    /// Seedlings: number and page.
    pub seedlings: Vec<(String, String)>,
}

/// A species in the list of all.
pub struct SpeciesRow {
    /// The species.
    pub door: Door,
    /// Founders with it.
    pub founders: usize,
    /// Crosses with it.
    pub crosses: usize,
    /// Numbered seedlings with it.
    pub seedlings: usize,
}

/// What the page of a species says.
pub struct AlbumSpeciesPage {
    /// Its name.
    pub name: String,
    /// What the list says of it.
    pub show: ShowReport,
    /// Founders with it: code, page, name.
    pub founders: Vec<(Door, Name)>,
    /// Crosses with it.
    pub crosses: Vec<SpeciesCrossRow>,
}

impl AlbumSpeciesPage {
    pub(super) fn of(album: &Album, epithet: &str) -> AlbumSpeciesPage {
        let registry = album.registry();
        let show = show(album.context, epithet);
        let founders = album.founders_with(epithet).into_iter();
        AlbumSpeciesPage {
            name: format!(
                "{} {epithet}",
                album.context.names().vocabulary().genus_short()
            ),
            show: show.unwrap_or_default(),
            founders: founders
                .map(|plant| (door(album, plant), album.short_name(Unit::Plant(plant))))
                .collect(),
            crosses: album
                .crosses_with(epithet)
                .into_iter()
                .map(|cross| {
                    let of = &registry[cross];
                    let number = |plant: &PlantRow| {
                        let number = registry.number(*plant).unwrap_or_default().to_owned();
                        (number, album.files.plant(*plant).to_owned())
                    };
                    SpeciesCrossRow {
                        door: Door {
                            id: of.page.code.to_owned(),
                            path: album.files.cross(cross).to_owned(),
                        },
                        name: album.short_name(Unit::Cross(cross)),
                        share: album.share_in_cross(cross, epithet),
                        seedlings: of.seedlings.iter().map(number).collect(),
                    }
                })
                .collect(),
        }
    }
}

impl SpeciesRow {
    /// All species that are in any plant.
    pub(super) fn all(album: &Album) -> Vec<SpeciesRow> {
        let registry = album.registry();
        let listed = album.species_with_pages();
        let rows = listed.into_iter().map(|(epithet, path)| {
            let crosses = album.crosses_with(epithet);
            let seedlings = crosses.iter();
            let seedlings = seedlings.map(|at| registry[*at].seedlings.len());
            SpeciesRow {
                door: Door {
                    id: epithet.to_owned(),
                    path: path.to_owned(),
                },
                founders: album.founders_with(epithet).len(),
                seedlings: seedlings.sum(),
                crosses: crosses.len(),
            }
        });
        rows.collect()
    }
}

fn door(album: &Album, plant: PlantRow) -> Door {
    Door {
        id: album.registry().code(plant),
        path: album.files.plant(plant).to_owned(),
    }
}
