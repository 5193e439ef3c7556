//! Charts on the same scene as the pedigree: quiet paper, one serif, direct labels, thin grid.
//!
//! Each function draws one kind of report; what is counted, left out or said is decided there. Values that are not
//! numbers are not drawn.

mod apart;
mod calendar;
mod columns;
mod ends;
mod frame;
mod grid;
mod groups;
mod growth;
mod heading;
mod kinds;
mod kinship;
mod look;
mod marks;
mod merit;
mod parentage;
mod parents;
mod plans;
mod ratio;
mod row;
mod scale;
mod scatter;
mod sheet;
mod siblings;
mod survival;
mod swarm;
mod variation;

pub use crate::wording::number;
pub use apart::{clear, within};
pub use calendar::calendar;
pub use grid::select;
pub use growth::growth;
pub use kinship::kinship;
pub use look::Look;
pub use merit::merit;
pub use parentage::parentage;
pub use plans::plans;
pub use scale::Scale;
pub use scatter::scatter;
pub use sheet::Sheet;
pub use siblings::siblings;
pub use survival::survival;
pub use swarm::{bars, bins, step_of, swarm};
pub use variation::variation;
