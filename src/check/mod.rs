//! Faults that only the whole registry shows: dates out of order, counts that do not balance, sexes and parents that
//! contradict each other, readings outside their trait, names that say something else than the record.
//!
//! One module asks one question. `record` and `registry` have reported before what cannot be read, is not on record or is
//! given twice. Nothing is left out here: a fault is what cannot be true as it stands, a warning what is probably
//! a slip, a note what is worth knowing. Records are judged as ranges where dates are partial: only what is wrong on
//! every reading is reported.

mod absent;
mod backups;
mod calendar;
mod context;
mod counts;
mod cultivars;
mod dates;
mod doubts;
mod entry;
mod events;
mod excess;
mod flowerings;
mod goals;
mod labels;
mod last_of_sex;
mod lives;
mod long_flowering;
mod lots;
mod misplaced_points;
mod mothers;
mod numbered_when_sown;
mod odd_codes;
mod one_plant;
mod one_sided;
mod pieces;
mod possible_sides;
mod pots;
mod reading_words;
mod readings;
mod references;
mod same_plant;
mod seedling_counts;
mod setting;
mod sexes;
mod shared_codes;
mod shrinking;
mod sides;
mod suppliers;
mod taken_out;
mod taxa;
mod threads;
mod timeline;
mod traits;
mod undated_sex;
mod whole;
mod years;

pub use entry::no_reading;
pub use shrinking::KEEPS;
pub use whole::{against_parents, all, all_but_founders_labels, faults};
