//! The best plans of a season, proved.
//!
//! Branch and bound, best bound first (Land & Doig 1960): a part of all plans is judged by its priced network; what
//! cannot hold a wanted plan is dropped; a part whose best plan is known is split around that plan (Murty 1968), which
//! yields the runners-up and every tie. The queue is kept in memory, nothing recurses, and the work can be stopped after
//! any step with the best plan so far and the bound that holds for all others.

mod answer;
mod branch_and_bound;
mod part;
mod partition;
mod pool;

pub use answer::{Asked, Found, Progress, SAME_WORTH};
pub use branch_and_bound::search;
