//! Charts on the same scene as the pedigree: quiet paper, one serif, direct labels, thin grid.
//!
//! Each function draws one kind of report; what is counted, left out or said is decided there. Values that are not
//! numbers are not drawn.

mod apart;
mod ends;
mod frame;
mod frontier;
mod growth;
mod heading;
mod kinds;
mod parents;
mod row;
mod scale;
mod shares;
mod siblings;
mod spread;
mod survival;
mod swarm;

pub use apart::{clear, within};
pub use frontier::frontier;
pub use growth::growth;
pub use scale::{Scale, number};
pub use shares::shares;
pub use siblings::siblings;
pub use spread::spread;
pub use survival::survival;
pub use swarm::{bins, swarm};
