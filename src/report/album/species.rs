//! The page of one species: what the list says of it, its founders, and the crosses with it.

use super::further::{FurtherPage, Pager, SpeciesCrossRow, parts};
use super::plant::Door;
use super::whole::Album;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::registry::CrossRow;
use crate::report::show::{ShowReport, show};
use crate::wording::Name;

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
    pub count: usize,
    /// Those of them that fit on the page.
    pub crosses: Vec<SpeciesCrossRow>,
    /// The pages of the list.
    pub pager: Pager,
}

impl AlbumSpeciesPage {
    pub(super) fn of(album: &Album, epithet: &str) -> AlbumSpeciesPage {
        let show = show(album.context, epithet);
        let founders = album.founders_with(epithet).into_iter();
        let mut parts = parts(crosses(album, epithet));
        AlbumSpeciesPage {
            name: name(album, epithet),
            show: show.unwrap_or_default(),
            founders: founders
                .map(|plant| (door(album, plant), album.short_name(Unit::Plant(plant))))
                .collect(),
            count: album.crosses_with(epithet).len(),
            pager: Pager::of(path(album, epithet), parts.len(), 0),
            crosses: parts.swap_remove(0),
        }
    }
}

/// Pages that the crosses with a species need.
pub(super) fn pages_of(album: &Album, epithet: &str) -> usize {
    parts(crosses(album, epithet)).len()
}

/// A further page of the crosses with a species, counted from 0.
pub(super) fn further(album: &Album, epithet: &str, at: usize) -> FurtherPage {
    let mut parts = parts(crosses(album, epithet));
    FurtherPage {
        part: "Species",
        of: Door {
            id: name(album, epithet),
            path: path(album, epithet).to_owned(),
        },
        heading: "Crosses with it".to_owned(),
        pager: Pager::of(path(album, epithet), parts.len(), at),
        crosses: parts.swap_remove(at),
    }
}

fn name(album: &Album, epithet: &str) -> String {
    let genus = album.context.names().vocabulary().genus_short();
    format!("{genus} {epithet}")
}

fn path<'a>(album: &'a Album, epithet: &str) -> &'a str {
    album.files.species(epithet).unwrap_or("species.html")
}

/// Every cross with a species, and its seedlings; those which may be of another cross apart.
fn crosses(album: &Album, epithet: &str) -> Vec<SpeciesCrossRow> {
    let registry = album.registry();
    let seedling = |plant: &PlantRow| {
        let number = registry.number(*plant).unwrap_or_default().to_owned();
        (number, album.files.plant(*plant).to_owned())
    };
    let row = |cross: CrossRow, share: String, seedlings: &[PlantRow]| SpeciesCrossRow {
        door: Door {
            id: registry[cross].page.code.to_owned(),
            path: album.files.cross(cross).to_owned(),
        },
        name: album.short_name(Unit::Cross(cross)),
        share,
        seedlings: seedlings.iter().map(seedling).collect(),
    };
    let with_it = album.crosses_with(epithet);
    let mut rows = Vec::new();
    for at in registry.cross_rows() {
        let cross = &registry[at];
        let (sure, mixed_up): (Vec<PlantRow>, Vec<PlantRow>) = cross
            .seedlings
            .iter()
            .partition(|plant| registry.origin_of(**plant) == Some(cross.origin));
        if with_it.binary_search(&at).is_ok() {
            let share = match album.share_in_cross(at, epithet) {
                Some(share) => format!("Expected share: {share}"),
                None => "Only possibly in it".to_owned(),
            };
            rows.push(row(at, share, &sure));
        }
        let possible = mixed_up
            .into_iter()
            .filter(|plant| album.may_have(*plant, epithet));
        let possible: Vec<PlantRow> = possible.collect();
        if !possible.is_empty() {
            let share = "Perhaps of another cross: possibly in it";
            rows.push(row(at, share.to_owned(), &possible));
        }
    }
    rows
}

impl SpeciesRow {
    /// All species that are in any plant.
    pub(super) fn all(album: &Album) -> Vec<SpeciesRow> {
        let listed = album.species_with_pages();
        let rows = listed.into_iter().map(|(epithet, path)| {
            let rows = crosses(album, epithet).into_iter();
            let seedlings = rows.map(|row| row.seedlings.len());
            SpeciesRow {
                door: Door {
                    id: epithet.to_owned(),
                    path: path.to_owned(),
                },
                founders: album.founders_with(epithet).len(),
                seedlings: seedlings.sum(),
                crosses: album.crosses_with(epithet).len(),
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
