//! The registry of a small-scale *Nepenthes* breeder.
//!
//! A folder of RON files is read ([`record`]), checked and numbered ([`registry`]), turned into the graph of who came
//! from whom ([`lineage`]), computed upon, told as a [`report`] and written by [`render`]. Each module stands on a
//! floor and imports only from floors below it; `tests/floors.rs` holds that line.

pub mod analysis;
pub mod ancestry; // floor 4
pub mod check; // floor 6
pub mod cli; // floor 9
pub mod diagnostic;
pub mod evidence; // floor 5, below check and report
pub mod kinship;
pub mod lineage; // floor 3
pub mod naming;
pub mod observation;
pub mod planning;
pub mod record; // floor 1
pub mod recording;
pub mod registry; // floor 2
pub mod render; // floor 8
pub mod report; // floor 7
pub mod statistics;
pub mod text; // floor 0
pub mod wording;
