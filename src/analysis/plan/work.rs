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

impl Stage {
    /// In words.
    pub fn words(self) -> &'static str {
        match self {
            Stage::BestPlan => "the best plan",
            Stage::Limits => "what the limits cost",
            Stage::Frontier => "gain against kinship",
        }
    }
}

/// The work under way.
pub(crate) struct Work<'w> {
    pub stage: &'w Cell<Stage>,
    pub budget: Budget<'w>,
}
