//! The registry as pages to look at: the collection, every plant, every cross, every species, the season, what is at fault.
//!
//! [`Album`] knows what all pages share and makes one page at a time, so that a page can be written into a folder or shown
//! on its own. What a page says is decided here; how it looks is left to `render`. Paths are relative to the album's folder.

mod answer;
mod collection;
mod cross;
mod door;
mod files;
mod further;
mod kin;
mod page;
mod plant;
mod season;
mod shots;
mod species;
mod whole;

pub use answer::{AlbumReport, LEFT_OUT};
pub use collection::{CollectionPage, CollectionRow, Group};
pub use cross::{AlbumCrossPage, Ordering, SiblingCard};
pub use door::Door;
pub use files::Files;
pub use further::{FurtherPage, Pager, SpeciesCrossRow};
pub use kin::{Curve, Kin, Kinsman, SeenTrait};
pub use page::{PageId, PageOf, WorkSheet};
pub use plant::AlbumPlantPage;
pub use season::work;
pub use shots::{Shot, ShotWanted, shots_wanted};
pub use species::{AlbumSpeciesPage, SpeciesRow};
pub use whole::Album;
