//! Charts on the same scene as the pedigree: quiet paper, one serif, direct labels, thin grid.
//!
//! Each function draws one kind of report; what is counted, left out or said is decided there. Values that are not
//! numbers are not drawn.

mod apart;
mod frame;
mod frontier;
mod growth;
mod kinds;
mod row;
mod scale;
mod shares;
mod siblings;
mod spread;
mod swarm;

pub use apart::apart;
pub use frontier::frontier;
pub use growth::growth;
pub use scale::{Scale, number};
pub use shares::shares;
pub use siblings::siblings;
pub use spread::spread;
pub use swarm::{bins, swarm};
