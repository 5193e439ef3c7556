//! One intended pollination: what the seedlings would be, how inbred, how tall, and what speaks against it.

mod answer;
mod cautions;
mod impossible;
mod inbreeding;
mod records;
mod shares;
mod traits;
mod weigh;

pub use answer::{
    DeviationFrom, MadeBefore, PairInbreeding, PairReport, PairShare, PairTrait, PairWishes,
    ParentRead, SharesIf, SideRow,
};
pub use weigh::pair;
