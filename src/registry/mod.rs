//! The whole registry, checked for references and numbered founders first.
//!
//! Answers which record a code names and which row a plant has. Whether dates, counts and sexes make sense is left to
//! `check`, who descends from whom to `lineage`, what anything is called to `naming`.

mod build;
mod cross;
mod headings;
pub mod ids;
mod indexed;
mod left_out;
mod lookup;
mod mating;
mod may_be;
mod mix_up;
mod mix_ups;
mod muddled;
mod not_yet;
mod numbering;
mod older;
mod order;
mod origin;
mod page_seedlings;
mod pages;
mod parents;
mod plant_or_ramet;
mod plants;
mod readings;
mod row_types;
mod rows;
mod seedling;
mod settling;
mod sitting;
mod species_for_others;
mod starter;
mod target;
mod tellers;
mod units;
mod who;
mod whole;

pub use build::{build, build_for};
pub use cross::Cross;
pub use headings::column_named;
pub use ids::natural_order;
pub use may_be::MayBeOne;
pub use mix_up::{MixUp, MixedUp};
pub use order::founders_first;
pub use origin::{Donor, Origin, Pair};
pub use pages::{Readers, unknown_form};
pub use plant_or_ramet::PlantOrRamet;
pub use plants::{KnownBy, PlantKind, Unseen};
pub use readings::{Column, Reading, ReadingTable, SittingHead};
pub use row_types::{
    CrossRow, LotRow, OriginRow, PlantRow, PodRow, PollenRow, PotRow, RametRow, SittingRow,
    SowingRow, TraitRow, ZoneRow,
};
pub use starter::{STARTER, StarterFile, starter_record};
pub use target::Target;
pub use who::Who;
pub use whole::Registry;
