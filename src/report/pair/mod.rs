//! One intended pollination, weighed on one page before anything is dusted.

mod answer;
mod cautions;
mod impossible;
mod inbreeding;
mod records;
mod shares;
mod sheet;
mod tables;
mod traits;
mod weigh;

pub use answer::{
    DeviationFrom, MadeBefore, PairInbreeding, PairMerit, PairReport, PairShare, PairTrait,
    PairWishes, ParentRead, SharesIf, SideRow,
};
pub use weigh::pair;
