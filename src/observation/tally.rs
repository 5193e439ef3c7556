//! Seeds sown and seedlings up of a whole cross; what was not counted is not zero.

use crate::record::{CrossPage, Sowing};

/// Seeds sown over all sowings; nothing when none was counted.
pub fn seeds_sown(page: &CrossPage) -> Option<u32> {
    sum_of(page.sowings.iter().map(|sowing| sowing.seeds))
}

/// Seedlings that came up, by the highest count of each sowing; nothing when none was counted.
pub fn germinated(page: &CrossPage) -> Option<u32> {
    let most = |sowing: &Sowing| sowing.germinated.iter().map(|tally| tally.count).max();
    sum_of(page.sowings.iter().map(most))
}

fn sum_of(counts: impl Iterator<Item = Option<u32>>) -> Option<u32> {
    counts.flatten().reduce(|a, b| a.saturating_add(b))
}
