//! The registry of a small-scale *Nepenthes* breeder.
//!
//! A folder of RON files is read ([`record`]), checked and numbered ([`registry`]), turned into the graph of who came
//! from whom ([`lineage`]), looked at ([`observation`]), computed upon ([`analysis`]), set out as a [`report`] and
//! written by [`render`]. Each module has a floor and imports only from floors below it; `tests/floors.rs` enforces that.

pub mod analysis;
pub mod ancestry;
pub mod check;
pub mod cli;
pub mod context;
pub mod diagnostic;
pub mod evidence;
pub mod kinship;
pub mod lineage;
pub mod naming;
pub mod numeric;
pub mod observation;
pub mod picture;
pub mod planning;
pub mod record;
pub mod recording;
pub mod registry;
pub mod render;
pub mod report;
#[cfg(feature = "serve")]
pub mod server;
pub mod statistics;
pub mod text;
pub mod wording;
