//! Whom to keep, sell or cull, by the rules the grower states: a proposal with the reason on every row.
//!
//! An index of weighted traits, independent levels and the front of plants that no sibling beats stand side by side; the
//! proposal follows the levels first and then the index. A plant not read stays unread: it is never culled for that.

mod ages;
mod answer;
mod beside;
mod choice;
mod error;
mod fit;
mod gone;
mod judged;
mod keep;
mod known;
mod next;
mod numbered;
mod reason;
mod response;
mod rules;
mod runs;
mod scatter;

pub use answer::{
    KeepWish, Proposal, ReadNext, SelectCross, SelectGone, SelectReport, SelectResponse, SelectRow,
    SelectTrait,
};
pub use beside::show_beside;
pub use error::SelectError;
pub use keep::keep;
pub use reason::{
    Behind, Caution, Cohort, Gap, Levels, Missed, Needed, Places, Quota, ReadAt, Reason, Standing,
};
pub use response::LOW_AND_HIGH;
pub use runs::{equal, unsure};
pub use scatter::{ScatterPlace, scatter_front, scatter_places};
