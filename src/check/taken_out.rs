//! Were more seedlings numbered out of a community pot than it held?
//!
//! A seedling with a number is no longer part of the count of its community pot. Those numbered surely after a count were in it;
//! of those without a day of numbering that is only likely.

use super::context::CheckContext;
use super::excess::{Counts, Excess, wide};
use crate::diagnostic::{Code, Finding, Severity};
use crate::observation::pot_account::{PotAccount, account_with};
use crate::record::{CommunityPot, Day, Tally, When};
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
            let numbered = days.iter().map(|on| Some(*on)).collect();
            let account = account_with(context.registry, row, Day::LAST, numbered);
            counts.taken_out(community_pot, (days, &account));
            counts.left_behind(community_pot, (days, &account));
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
    /// The counts of a community pot that were made by eye, in the order of its account.
    pub fn by_eye<'p>(&self, pot: &'p CommunityPot<'t>, of: &PotAccount) -> Vec<&'p Tally<'t>> {
        let began = usize::from(of.began.is_some());
        let mut counts: Vec<&Tally> = pot.alive.iter().skip(began).collect();
        counts.sort_by_key(|tally| self.context.registry.when(tally.on).last);
        counts
    }

    /// More numbered since a count than were counted and pricked out into it; told once, for the first count that shows it.
    fn taken_out(
        &mut self,
        community_pot: &CommunityPot<'t>,
        (days, account): (&[When], &PotAccount),
    ) {
        let began = community_pot
            .alive
            .iter()
            .take(usize::from(account.began.is_some()));
        let began = began.map(|tally| (tally, account.into_beside(None)));
        let by_eye = self.by_eye(community_pot, account).into_iter().enumerate();
        let by_eye =
            by_eye.map(|(at, tally)| (tally, wide(tally.count) + account.into_beside(Some(at))));
        for (tally, held) in began.chain(by_eye) {
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
            let (more, severity, what) = if surely > held {
                (surely, Severity::Fault, "seedlings numbered from it since")
            } else if maybe > held && tally.count == most(community_pot) {
                (maybe, Severity::Warning, "seedlings numbered out of it")
            } else {
                continue;
            };
            return self.compare(Excess {
                code: Code("more-numbered-than-community-pot"),
                severity,
                title: format!("more seedlings numbered from community pot {} than it held", community_pot.code),
                more: (more, what),
                than: (held, "seedlings in the community pot"),
                anchor: self.anchor(tally.on),
                field: "count",
                help: "perhaps some of these seedlings come from another community pot; an earlier, larger count goes into `alive`, the day of numbering into `numbered`",
            });
        }
    }

    /// Those numbered between two counts are no longer there at the second.
    fn left_behind(
        &mut self,
        community_pot: &CommunityPot<'t>,
        (days, account): (&[When], &PotAccount),
    ) {
        for (at, tally) in self.by_eye(community_pot, account).into_iter().enumerate() {
            let when = account.counts[at].1;
            let (Some((_, before)), Some(left)) = (account.count_before(at), account.most(when))
            else {
                continue;
            };
            let left = left + account.into_that_day(at);
            let between = |day: &&When| before.surely_before(**day) && day.surely_before(when);
            let taken = days.iter().filter(between).count() as u64;
            // A count that grew is already reported by `community-pot-grows`.
            if taken == 0 || wide(tally.count) > left + taken {
                continue;
            }
            self.compare(Excess {
                code: Code("numbered-still-counted"),
                severity: Severity::Warning,
                title: format!(
                    "community pot {} still counts seedlings that have numbers",
                    community_pot.code
                ),
                more: (wide(tally.count), "seedlings alive"),
                than: (left, "left after those numbered since the count before"),
                anchor: self.anchor(tally.on),
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
