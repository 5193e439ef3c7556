//! The page of one species: what the list says of it, its founders, and the crosses with it.

use super::door::Door;
use super::further::{FurtherPage, Pager, SpeciesCrossRow, parts};
use super::whole::Album;
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::registry::CrossRow;
use crate::report::show::{ShowReport, show};
use crate::wording::{Name, counted};

/// A species in the list of all.
pub struct SpeciesRow {
    /// The species.
    pub door: Door,
    /// Founders with it.
    pub founders: HowMany,
    /// Crosses with it.
    pub crosses: HowMany,
    /// Numbered seedlings with it.
    pub seedlings: HowMany,
}

/// How many have a species for sure, and how many perhaps.
#[derive(Clone, Copy, Default)]
pub struct HowMany {
    /// For sure.
    pub sure: usize,
    /// Those of which it is one of several possible ones.
    pub perhaps: usize,
}

impl HowMany {
    fn of(all: impl Iterator<Item = (bool, usize)>) -> HowMany {
        let mut of = HowMany::default();
        for (is_sure, count) in all {
            match is_sure {
                true => of.sure += count,
                false => of.perhaps += count,
            }
        }
        of
    }

    /// `2 crosses, perhaps 1 more`.
    pub fn words(self, one: &str, many: &str) -> String {
        match (self.sure, self.perhaps) {
            (sure, 0) => counted(sure, one, many),
            (0, perhaps) => format!("perhaps {}", counted(perhaps, one, many)),
            (sure, perhaps) => format!("{}, perhaps {perhaps} more", counted(sure, one, many)),
        }
    }
}

/// What the page of a species says.
pub struct AlbumSpeciesPage {
    /// Its name.
    pub name: String,
    /// What the list says of it.
    pub show: ShowReport,
    /// Founders with it: code, page, name.
    pub founders: Vec<(Door, Name)>,
    /// How many founders.
    pub founders_with_it: HowMany,
    /// Crosses with it.
    pub count: HowMany,
    /// Those of them that fit on the page.
    pub crosses: Vec<SpeciesCrossRow>,
    /// The pages of the list.
    pub pager: Pager,
}

impl AlbumSpeciesPage {
    pub(super) fn of(album: &Album, epithet: &str) -> AlbumSpeciesPage {
        let show = show(album.context, epithet);
        let founders = album.founders_with(epithet).into_iter();
        let mut parts = parts(rows(album, epithet));
        AlbumSpeciesPage {
            name: name(album, epithet),
            show: show.unwrap_or_default(),
            founders: founders
                .map(|plant| (album.door(plant), album.short_name(Unit::Plant(plant))))
                .collect(),
            founders_with_it: founders_with(album, epithet),
            count: crosses_with(album, epithet),
            pager: Pager::of(path(album, epithet), parts.len(), 0),
            crosses: parts.swap_remove(0),
        }
    }
}

/// Pages that the crosses with a species need.
pub(super) fn pages_of(album: &Album, epithet: &str) -> usize {
    parts(rows(album, epithet)).len()
}

/// A further page of the crosses with a species, counted from 0.
pub(super) fn further(album: &Album, epithet: &str, at: usize) -> FurtherPage {
    let mut parts = parts(rows(album, epithet));
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

fn founders_with(album: &Album, epithet: &str) -> HowMany {
    let founders = album.founders_with(epithet).into_iter();
    HowMany::of(founders.map(|plant| (album.is_surely_in(plant, epithet), 1)))
}

fn crosses_with(album: &Album, epithet: &str) -> HowMany {
    let crosses = album.crosses_with(epithet).into_iter();
    HowMany::of(crosses.map(|at| (album.share_in_cross(at, epithet).is_some(), 1)))
}

fn rows(album: &Album, epithet: &str) -> Vec<SpeciesCrossRow> {
    crosses(album, epithet).map(|(_, row)| row).collect()
}

/// Every cross with a species, and its seedlings; those which may be of another cross apart. With each whether they have it for
/// sure.
fn crosses(album: &Album, epithet: &str) -> impl Iterator<Item = (bool, SpeciesCrossRow)> {
    let registry = album.registry();
    let seedling = |plant: &PlantRow| album.numbered(*plant);
    let row = |cross: CrossRow, share: String, seedlings: &[PlantRow]| SpeciesCrossRow {
        door: album.door_of_cross(cross),
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
            let (is_sure, share) = match album.share_in_cross(at, epithet) {
                Some(share) => (true, format!("Expected share: {share}")),
                None => (false, "Only possibly in it".to_owned()),
            };
            rows.push((is_sure, row(at, share, &sure)));
        }
        let possible = mixed_up
            .into_iter()
            .filter(|plant| album.may_have(*plant, epithet));
        let possible: Vec<PlantRow> = possible.collect();
        if !possible.is_empty() {
            let share = "Perhaps of another cross: possibly in it";
            rows.push((false, row(at, share.to_owned(), &possible)));
        }
    }
    rows.into_iter()
}

impl SpeciesRow {
    /// All species that are in any plant.
    pub(super) fn all(album: &Album) -> Vec<SpeciesRow> {
        let listed = album.species_with_pages();
        let rows = listed.into_iter().map(|(epithet, path)| {
            let rows = crosses(album, epithet);
            let seedlings = rows.map(|(is_sure, row)| (is_sure, row.seedlings.len()));
            SpeciesRow {
                door: Door {
                    id: epithet.to_owned(),
                    path: path.to_owned(),
                },
                founders: founders_with(album, epithet),
                seedlings: HowMany::of(seedlings),
                crosses: crosses_with(album, epithet),
            }
        });
        rows.collect()
    }
}
