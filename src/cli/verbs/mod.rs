//! One verb, one file.

mod card;
mod check;
mod diversity;
mod due;
mod epithet;
mod find;
mod goals;
mod grade;
mod growth;
mod handed_over;
mod handover;
mod kinship;
mod known;
mod list;
mod merit;
mod name;
mod new;
mod output;
mod pair;
mod paper;
mod parentage;
mod pedigree;
mod plan;
mod promised;
mod read;
mod ready;
mod record;
mod select;
mod show;
mod siblings;
mod tags;
mod variation;
mod verb;
mod verify;

use known::known;
pub use verb::Verb;
