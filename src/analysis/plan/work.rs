//! What is being worked out, and how much work it may still take.

use crate::planning::budget::Budget;
use std::cell::Cell;

/// What is being worked out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stage {
    /// The best plan, and those beside it.
    BestPlan,
    /// What each limit costs.
    Limits,
    /// Gain against kinship.
    Frontier,
}

/// The work under way.
pub(crate) struct Work<'w> {
    pub stage: &'w Cell<Stage>,
    pub budget: Budget<'w>,
}
