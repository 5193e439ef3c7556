//! What changes pages of a registry: an event of the bench becomes edits, which are checked and written whole or not at
//! all.
//!
//! An event ([`events`]) makes its changes on a [`draft::Draft`]: pages as they are to be, every comment and every other
//! byte kept. [`checked`] says which faults the change would bring; [`journal`] makes the entry by which it can be taken
//! back. `text::commit` writes both together. What was recorded is put into words by `report`; what is refused ([`slip`]) or
//! remarked on is worded where it arises.

pub mod at_place;
pub mod book;
pub mod checked;
pub mod codes;
pub mod dates;
pub mod difference;
pub mod draft;
pub mod ending;
pub mod events;
pub mod filled;
pub mod handover;
pub mod import;
pub mod in_flower;
pub mod journal;
mod legible;
pub mod line_edits;
pub mod measuring;
pub mod merging;
pub mod names;
pub mod page;
pub mod part_of_pot;
pub mod parts;
pub mod plants;
pub mod recorded;
pub mod rows_asked;
pub mod says;
pub mod seed_lots;
pub mod slip;
pub mod tags_asked;
pub mod taken_out;
pub mod trays;
pub mod trays_asked;

pub mod undo;
mod undo_lines;
pub mod usual;
pub mod voice;
pub mod written;
