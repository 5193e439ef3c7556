//! One file or folder per question a grower asks: what is said first, the table that carries it, the cautions, the words.

mod as_text;
pub mod changes;
pub mod chart;
pub mod check;
pub mod diversity;
pub mod due;
pub mod epithet;
pub mod find;
pub mod grade;
pub mod growth;
pub mod kinship;
pub mod list;
pub mod merit;
pub mod name;
pub mod new;
pub mod pair;
pub mod parentage;
pub mod pedigree;
pub mod pedigree_of;
pub mod plan;
pub mod read;
pub mod ready;
pub mod recorded;
pub mod select;
pub mod sheet;
pub mod show;
pub mod siblings;
pub mod tray;
pub mod variation;

pub use check::{CheckReport, FindingRow, check};
pub use new::{BegunFile, BegunReport, begun};
pub use pedigree::PedigreeDrawing;
pub use sheet::{Cell, ColumnHead, Plain, Report, Section, Sheet, Table};
