//! What each plant is worth as a parent, predicted from its own readings and those of all its relatives.
//!
//! `model` says which readings count and which effects they carry, `merit_model` makes a trait ready, `solved` answers for single
//! plants and for two, `better` gives the chance of being the better one, `listed` joins traits to an index. Ranking is the
//! reader's; a pollination and a plan ask `merit_model` alone.

mod picture;
mod sheet;
mod words;

pub use picture::merit_chart;
pub(crate) use sheet::limits;
