//! What a question comes to: one folder a question, typed answers with rows, numbers and reasons.
//!
//! An answer takes the registry, the lineage and the names, and gives back what `--json` shows, in that order; how it is
//! set out on a screen, as a table or a picture is decided in `report`.

pub mod album;
pub mod bench_sheet;
pub mod card;
mod carries;
pub mod diversity;
pub mod due;
pub mod evidence;
pub mod expected_spread;
pub mod export;
pub mod find;
pub mod grade;
pub mod growth;
pub mod history;
pub mod hybrid_names;
pub mod import;
pub mod kinship;
pub mod list;
pub mod merit;
pub mod name;
pub mod names_taken;
pub mod pair;
pub mod parent_readings;
pub mod parentage;
pub mod pedigree;
pub mod photos;
pub mod plan;
pub mod promised;
pub mod ready;
pub mod registration;
pub mod select;
pub mod set_aside;
pub mod show;
pub mod siblings;
pub mod tags;
pub mod title;
pub mod variation;
