//! One intended pollination: what the seedlings would be, how inbred, how tall, and what speaks against it.

mod answer;
mod caution;
mod cautions;
mod error;
mod impossible;
mod inbreeding;
mod intended;
mod records;
mod shares;
mod traits;
mod weigh;

pub use answer::{
    DeviationFrom, FlowersOf, MadeBefore, PairInbreeding, PairMerit, PairOptions, PairReport,
    PairShare, PairTrait, ParentRead, SharesIf, SideRow,
};
pub use caution::{Caution, Degree, End};
pub use error::PairError;
pub use impossible::{Impossible, OtherWay};
pub use weigh::pair;
