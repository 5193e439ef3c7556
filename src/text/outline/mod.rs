//! Where every value of a RON text stands, whether or not the text is well-formed.
//!
//! Answers "where is the field `sown` of the record around this byte", "which records does this faulty file hold, and
//! what is wrong with its brackets and commas". The outline is flat, made without recursion in one pass (two when the
//! brackets do not match), and never gives up. `record` reads what the values mean and makes every finer
//! check; `diagnostic` words the faults.

mod between;
mod build;
mod classes;
mod frame;
mod parts;
mod query;
mod quoted;
mod scan;

pub use build::DEEPEST;
pub use parts::{Fault, FaultKind, Kind, Part, PartId, Role};
pub use query::Outline;
