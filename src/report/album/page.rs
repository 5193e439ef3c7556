//! Which pages there are, and what each says.

use super::collection::CollectionPage;
use super::cross::{self, AlbumCrossPage};
use super::further::{FurtherPage, further_path};
use super::kin::Kin;
use super::plant::AlbumPlantPage;
use super::species::{self, AlbumSpeciesPage, SpeciesRow};
use super::whole::Album;
use crate::lineage::PlantRow;
use crate::registry::CrossRow;
use crate::report::list::{CrossList, crosses};
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
    Cross(CrossRow),
    /// A further page of a species, counted from 0.
    FurtherSpecies(String, usize),
    /// A further page of a cross, counted from 0.
    FurtherCross(CrossRow, usize),
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
    Species(Box<AlbumSpeciesPage>),
    /// One cross.
    Cross(Box<AlbumCrossPage>),
    /// A list that goes on.
    Further(Box<FurtherPage>),
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
    pub fn path(&self, album: &Album) -> String {
        let species = |epithet: &str| album.files.species(epithet).unwrap_or("species.html");
        match self {
            PageId::Collection => "index.html".to_owned(),
            PageId::Crosses => "crosses.html".to_owned(),
            PageId::AllSpecies => "species.html".to_owned(),
            PageId::Species(epithet) => species(epithet).to_owned(),
            PageId::FurtherSpecies(epithet, at) => further_path(species(epithet), *at),
            PageId::Cross(cross) => album.files.cross(*cross).to_owned(),
            PageId::FurtherCross(cross, at) => further_path(album.files.cross(*cross), *at),
            PageId::Plant(plant) => album.files.plant(*plant).to_owned(),
        }
    }
}

impl Album<'_, '_, '_> {
    /// Every page but the season's and the faults', in the order in which they are written.
    pub fn pages(&self) -> Vec<PageId> {
        let mut pages = vec![PageId::Collection, PageId::Crosses, PageId::AllSpecies];
        for (epithet, _) in self.species_with_pages() {
            let more = 1..species::pages_of(self, epithet);
            pages.push(PageId::Species(epithet.to_owned()));
            pages.extend(more.map(|at| PageId::FurtherSpecies(epithet.to_owned(), at)));
        }
        for cross in self.registry().cross_rows() {
            let more = 1..cross::pages_of(self, cross);
            pages.push(PageId::Cross(cross));
            pages.extend(more.map(|at| PageId::FurtherCross(cross, at)));
        }
        pages.extend(self.registry().plants().map(PageId::Plant));
        pages
    }

    /// Pages that are made of the same readings, together.
    pub fn page_groups(&self) -> Vec<Vec<PageId>> {
        let registry = self.registry();
        let of_cross = |page: &PageId| match page {
            PageId::Cross(cross) => Some(*cross),
            PageId::Plant(plant) => registry.cross_of(*plant),
            _ => None,
        };
        let mut groups: Vec<Vec<PageId>> = registry.crosses.iter().map(|_| Vec::new()).collect();
        for page in self.pages() {
            match of_cross(&page) {
                Some(cross) => groups[cross.index()].push(page),
                None => groups.push(vec![page]),
            }
        }
        groups
    }

    /// The plants a page shares its readings with; none for a page without readings.
    pub fn kin(&self, page: &PageId) -> Option<Kin> {
        match page {
            PageId::Cross(cross) => Some(Kin::of_cross(self, *cross)),
            PageId::Plant(plant) => Some(match self.registry().cross_of(*plant) {
                Some(cross) => Kin::of_cross(self, cross),
                None => Kin::of_founder(self, *plant),
            }),
            _ => None,
        }
    }

    /// What a page says; `kin` is that of the page itself or of another with the same readings.
    pub fn page(&self, page: &PageId, kin: Option<&Kin>) -> PageOf {
        match (page, kin) {
            (PageId::Collection, _) => PageOf::Collection(CollectionPage::of(self)),
            (PageId::Crosses, _) => PageOf::Crosses(crosses(self.context)),
            (PageId::AllSpecies, _) => PageOf::AllSpecies(SpeciesRow::all(self)),
            (PageId::Species(epithet), _) => {
                PageOf::Species(Box::new(AlbumSpeciesPage::of(self, epithet)))
            }
            (PageId::FurtherSpecies(epithet, at), _) => {
                PageOf::Further(Box::new(species::further(self, epithet, *at)))
            }
            (PageId::FurtherCross(cross, at), _) => {
                PageOf::Further(Box::new(cross::further(self, *cross, *at)))
            }
            (PageId::Cross(cross), Some(kin)) => {
                PageOf::Cross(Box::new(AlbumCrossPage::of(self, *cross, kin)))
            }
            (PageId::Plant(plant), Some(kin)) => {
                PageOf::Plant(Box::new(AlbumPlantPage::of(self, *plant, kin)))
            }
            (PageId::Cross(_) | PageId::Plant(_), None) => self.page(page, self.kin(page).as_ref()),
        }
    }
}
