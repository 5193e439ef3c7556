//! One file per question a grower asks: plain serialisable values, all wording and order decided, no format.

mod begin;
pub mod chart;
mod check;
pub mod road;
pub mod series;
mod sheet;
pub mod standing;
pub mod words;

pub use begin::{BegunFile, BegunReport, begun};
pub use check::{CheckReport, FindingRow, check};
pub use sheet::{Cell, ColumnHead, Plain, Report, Section, Sheet, Table};
pub mod common_age;
pub mod descent;
pub mod diversity;
pub mod epithet;
pub mod founding;
pub mod growth;
pub mod keep;
mod keep_choice;
pub mod keep_marks;
mod keep_sheet;
pub mod kin;
pub mod list;
pub mod merit;
mod merit_model;
pub mod name;
pub mod pedigree;
pub mod pedigree_of;
pub mod read;
pub mod sexes;
pub mod shares;
pub mod shelf_room;
pub mod show;
pub mod sibling_groups;
pub mod sibling_ratio;
pub mod siblings;
pub mod siblings_chart;
mod siblings_sheet;
pub mod sort;
pub mod spread;
pub mod spread_expected;
mod spread_sheet;
pub mod trait_unit;
pub mod tray;

pub use pedigree::PedigreeDrawing;
