//! Seeds sown and seedlings up of a whole cross; what was not counted is not zero.

use crate::record::{CrossPage, Sowing};

/// A sum over the sowings of a cross.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Total {
    /// What was counted in those sowings that have a count.
    pub count: u32,
    /// Whether some sowing has no count, so that there were at least as many.
    pub is_minimum: bool,
}

/// Seeds sown over all sowings; nothing when none was counted.
pub fn seeds_sown(page: &CrossPage) -> Option<Total> {
    total(page.sowings.iter().map(|sowing| sowing.seeds))
}

/// Seedlings that came up, by the highest count of each sowing; nothing when none was counted.
pub fn germinated(page: &CrossPage) -> Option<Total> {
    let most = |sowing: &Sowing| sowing.germinated.iter().map(|tally| tally.count).max();
    total(page.sowings.iter().map(most))
}

fn total(counts: impl Iterator<Item = Option<u32>> + Clone) -> Option<Total> {
    let is_minimum = counts.clone().any(|count| count.is_none());
    let count = counts.flatten().reduce(|a, b| a.saturating_add(b))?;
    Some(Total { count, is_minimum })
}

/// Whether the number of seeds of a pod is a guess: a lot of its seed says so.
pub fn seeds_are_a_guess(page: &CrossPage, pod: &str) -> bool {
    let mut lots = page.seed_lots.iter();
    lots.any(|lot| lot.pod == Some(pod) && lot.estimated)
}
