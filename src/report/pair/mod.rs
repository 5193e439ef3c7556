//! One intended pollination, weighed on one page before anything is dusted.

mod answer;
mod cautions;
mod inbreeding;
mod records;
mod sheet;
mod tables;
mod traits;
mod weigh;

pub use answer::{
    MadeBefore, PairInbreeding, PairMerit, PairReport, PairShare, PairTrait, PairWishes, SideRow,
};
pub use weigh::pair;
