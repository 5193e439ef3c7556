//! Which pages there are.

use super::collection::CollectionPage;
use super::cross::AlbumCrossPage;
use super::plant::AlbumPlantPage;
use super::species::{AlbumSpeciesPage, SpeciesRow};
use super::whole::Album;
use crate::lineage::PlantRow;
use crate::report::list::CrossList;
use crate::report::sheet::Sheet;

/// A page of an album.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum PageId {
    /// Every plant; the first page.
    Collection,
    /// Every cross.
    Crosses,
    /// Every species.
    AllSpecies,
    /// One species, by its epithet.
    Species(String),
    /// One cross, by its index.
    Cross(u32),
    /// One plant.
    Plant(PlantRow),
}

/// What a page says.
pub enum PageOf {
    /// Every plant.
    Collection(CollectionPage),
    /// Every cross.
    Crosses(CrossList),
    /// Every species.
    AllSpecies(Vec<SpeciesRow>),
    /// One species.
    Species(AlbumSpeciesPage),
    /// One cross.
    Cross(Box<AlbumCrossPage>),
    /// One plant.
    Plant(Box<AlbumPlantPage>),
}

/// An answer of another command as a part of a page.
pub struct WorkSheet {
    /// What it answers.
    pub heading: &'static str,
    /// The answer.
    pub sheet: Sheet,
}

impl PageId {
    /// Where it lies.
    pub fn path<'a>(&self, album: &'a Album) -> &'a str {
        match self {
            PageId::Collection => "index.html",
            PageId::Crosses => "crosses.html",
            PageId::AllSpecies => "species.html",
            PageId::Species(epithet) => album.files.species(epithet).unwrap_or("species.html"),
            PageId::Cross(cross) => album.files.cross(*cross),
            PageId::Plant(plant) => album.files.plant(*plant),
        }
    }
}
