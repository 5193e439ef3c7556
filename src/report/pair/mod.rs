//! One intended pollination, weighed on one page before anything is dusted.

mod answer;
mod cautions;
mod impossible;
mod inbreeding;
mod records;
mod sheet;
mod tables;
mod traits;
mod weigh;

pub use answer::{
    DeviationFrom, MadeBefore, PairInbreeding, PairMerit, PairReport, PairShare, PairTrait,
    PairWishes, ParentRead, SideRow,
};
pub use weigh::pair;
