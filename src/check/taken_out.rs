//! Were more seedlings numbered out of a community pot than it held?
//!
//! A seedling with a number is no longer part of the count of its community pot. Those numbered surely after a count were in it;
//! of those without a day of numbering that is only likely.

use super::context::CheckContext;
use super::excess::{Counts, Excess, wide};
use crate::diagnostic::{Code, Finding, Severity};
use crate::record::{CommunityPot, When};
use crate::registry::{CrossRow, PotRow};
use std::collections::BTreeMap;

/// Every community pot of a cross against the seedlings numbered out of it.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let mut counts = Counts {
        context,
        cross,
        found: Vec::new(),
    };
    let days = days_numbered(context, cross);
    for (row, community_pot) in context.registry.community_pots(cross) {
        if let Some(days) = days.get(&row) {
            counts.taken_out(community_pot, days);
            counts.left_behind(community_pot, days);
        }
    }
    counts.found
}

/// For each community pot with numbered seedlings the day each got its number; unknown where it was not recorded.
fn days_numbered(context: &CheckContext, cross: CrossRow) -> BTreeMap<PotRow, Vec<When>> {
    let registry = context.registry;
    let mut days: BTreeMap<PotRow, Vec<When>> = BTreeMap::new();
    for &plant in &context.cross(cross).seedlings {
        if let (.., Some(community_pot)) = registry.road(plant) {
            let numbered = registry
                .seedling(plant)
                .and_then(|seedling| seedling.numbered);
            let when = numbered.map_or(When::UNKNOWN, |on| registry.when(on));
            days.entry(community_pot).or_default().push(when);
        }
    }
    days
}

impl<'t> Counts<'_, '_, 't> {
    /// More numbered since a count than were counted; told once, for the first count that shows it.
    fn taken_out(&mut self, community_pot: &CommunityPot<'t>, days: &[When]) {
        for tally in &community_pot.alive {
            let Some(counted) = self.context.when(tally.on) else {
                continue;
            };
            let surely = days
                .iter()
                .filter(|day| counted.surely_before(**day))
                .count() as u64;
            let maybe = days
                .iter()
                .filter(|day| !day.surely_before(counted))
                .count() as u64;
            let (more, severity, what) = if surely > wide(tally.count) {
                (surely, Severity::Fault, "seedlings numbered from it since")
            } else if maybe > wide(tally.count) && tally.count == most(community_pot) {
                (maybe, Severity::Warning, "seedlings numbered out of it")
            } else {
                continue;
            };
            return self.compare(Excess {
                code: Code("more-numbered-than-community-pot"),
                severity,
                title: format!("more seedlings numbered from community pot {} than it held", community_pot.code),
                more: (more, what),
                than: (wide(tally.count), "seedlings in the community pot"),
                anchor: self.anchor(tally.on),
                field: "count",
                help: "perhaps some of these seedlings come from another community pot; an earlier, larger count goes into `alive`, the day of numbering into `numbered`",
            });
        }
    }

    /// Those numbered between two counts are no longer there at the second.
    fn left_behind(&mut self, community_pot: &CommunityPot<'t>, days: &[When]) {
        for pair in community_pot.alive.windows(2) {
            let (Some(first), Some(second)) =
                (self.context.when(pair[0].on), self.context.when(pair[1].on))
            else {
                continue;
            };
            let between = |day: &&When| first.surely_before(**day) && day.surely_before(second);
            let taken = days.iter().filter(between).count() as u64;
            let left = wide(pair[0].count).saturating_sub(taken);
            // A count that grew is already reported by `community-pot-grows`.
            if taken == 0 || pair[1].count > pair[0].count {
                continue;
            }
            self.compare(Excess {
                code: Code("numbered-still-counted"),
                severity: Severity::Warning,
                title: format!(
                    "community pot {} still counts seedlings that have numbers",
                    community_pot.code
                ),
                more: (wide(pair[1].count), "seedlings alive"),
                than: (left, "left after those numbered since the count before"),
                anchor: self.anchor(pair[1].on),
                field: "count",
                help: "leave numbered seedlings out of the count of their community pot",
            });
        }
    }
}

/// The largest count of a community pot.
fn most(community_pot: &CommunityPot) -> u32 {
    community_pot
        .alive
        .iter()
        .map(|tally| tally.count)
        .max()
        .unwrap_or(0)
}
