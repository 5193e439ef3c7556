//! What one file says: the typed form of each record, its text still borrowed from the file.
//!
//! Nothing here looks beyond one file. Dates and lengths stay text in the records, so that a wrong one costs its own
//! field and not the whole record, and so that its place is known; `when` and `length` read them.

mod bench_records;
mod clones_page;
mod cross_page;
mod disputed;
mod due_settings;
mod escapes;
mod fault_words;
mod few;
mod for_others;
mod free_text;
mod goals_page;
mod import_choices;
mod journal_page;
mod keep_rules;
mod length;
mod listed;
mod plain;
mod plain_groups;
mod plain_reader;
mod plant_records;
mod provenance_records;
mod read;
mod registry_page;
mod rows;
mod salvage;
mod seedling_record;
mod seedlings;
mod sitting_records;
mod species_page;
mod typed;
mod when;
mod when_calendar;
mod when_phrases;
mod written_parents;

pub use bench_records::{Foreign, Muddle, Photo, PlantPlace, ToldBy, Treatment};
pub use clones_page::{
    ClonesPage, FounderClone, PollenLot, PollenPage, PollenPlace, PollenSource, ReceivedAs,
};
pub use cross_page::{CrossPage, Parents, PossiblePair};
pub use disputed::disputed;
pub use due_settings::{Intervals, PotStep, ShelfSpace};
pub use escapes::spelt_out;
pub use few::Few;
pub use for_others::ForOthers;
pub use free_text::FreeText;
pub use goals_page::{
    GoalsFault, GoalsPage, PollenLife, TraitWeight, WantedPair, goals_most, read_goals,
};
pub use import_choices::{
    Choose, ClassChoice, ColumnChoice, Holds, ImportChoices, RowChoice, RowClass,
};
pub use journal_page::{
    JournalEdit, JournalEntry, JournalMerge, JournalPage, JournalRename, read_journal_entry,
};
pub use keep_rules::{KeepRules, Need, Quota, Shelf, Weight};
pub use length::{Length, LengthFault, LengthUnit};
pub use plant_records::{
    Confidence, Cultivar, Fate, Flowering, HandedOn, Identification, Kept, Made, NameAs, Potting,
    Ramet, Return, SeenBy, Sex,
};
pub use provenance_records::{
    CommunityPot, NONE_LEFT, PartGone, Pod, Pollination, Pricking, SeedLot, Sowing, Tally,
};
pub use read::{page_faults, read_page, read_without_ron};
pub use registry_page::{
    Hemisphere, MeasuredIn, Reads, RegistryPage, ShownUnit, Trait, within_reason,
};
pub use rows::Rows;
pub use salvage::Page;
pub use seedling_record::Seedling;
pub use seedlings::{Beside, BriefSeedling, Seedlings};
pub use sitting_records::{PitcherType, Sitting};
pub use species_page::{
    CheckedEpithet, DeclaredCode, NamedHybrid, Species, SpeciesPage, Sureness, Synonym,
};
pub use typed::word_of;
pub use when::{Day, When, WhenFault};
pub use written_parents::{Parent, parents};
