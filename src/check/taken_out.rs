//! Were more seedlings numbered out of a community pot, or did more leave it, than it held?
//!
//! A seedling with a number is no longer part of the count of its community pot, nor is one that died or left. Those taken out
//! surely after a count were in it; of those without a day that is only likely.

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
        let days = days.get(&row).map_or(&[][..], Vec::as_slice);
        if days.is_empty() && community_pot.gone.is_empty() {
            continue;
        }
        let numbered = days.iter().map(|on| Some(*on)).collect();
        let account = account_with(context.registry, row, Day::LAST, Some(numbered));
        let numbered = days.iter().map(|on| (*on, 1));
        let gone = account.gone.iter().map(|of| (of.on, wide(of.seedlings)));
        let taken: Vec<(When, u64)> = numbered.chain(gone).collect();
        counts.taken_out(community_pot, (&taken, &account));
        counts.left_behind(community_pot, (&taken, &account));
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

    /// More numbered and gone since a count than were counted and pricked out into it; told once, for the first count that shows it.
    fn taken_out(
        &mut self,
        community_pot: &CommunityPot<'t>,
        (taken, account): (&[(When, u64)], &PotAccount),
    ) {
        let began = community_pot
            .alive
            .iter()
            .take(usize::from(account.began.is_some()));
        let began = began.map(|tally| (tally, account.into_beside(None)));
        let by_eye = self.by_eye(community_pot, account).into_iter().enumerate();
        let by_eye =
            by_eye.map(|(at, tally)| (tally, wide(tally.count) + account.into_beside(Some(at))));
        let words = TakenWords::of(account);
        let held = began.chain(by_eye).filter_map(|(tally, held)| {
            let counted = self.context.when(tally.on)?;
            Some((
                tally,
                held,
                counted,
                sum(taken, |on| counted.surely_before(on)),
            ))
        });
        let held: Vec<(&Tally, u64, When, u64)> = held.collect();
        for &(tally, held_then, counted, surely) in &held {
            // Seedlings are overlooked: who counted more later holds those taken since against that count.
            let mut later = held
                .iter()
                .filter(|(_, _, on, _)| counted.surely_before(*on));
            if later.any(|(_, held, _, since)| since <= held && held_then < *held) {
                continue;
            }
            let maybe = sum(taken, |on| !on.surely_before(counted));
            let (more, severity, what) = if surely > held_then {
                (surely, Severity::Fault, words.since)
            } else if maybe > held_then && tally.count == most(community_pot) {
                (maybe, Severity::Warning, words.out)
            } else {
                continue;
            };
            return self.compare(Excess {
                code: Code("more-numbered-than-community-pot"),
                severity,
                title: format!("more seedlings {} community pot {} than it held", words.from, community_pot.code),
                more: (more, what),
                than: (held_then, "seedlings in the community pot"),
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
        (taken, account): (&[(When, u64)], &PotAccount),
    ) {
        let words = TakenWords::of(account);
        for (at, tally) in self.by_eye(community_pot, account).into_iter().enumerate() {
            let when = account.counts[at].1;
            let (Some((_, before)), Some(left)) = (account.count_before(at), account.most(when))
            else {
                continue;
            };
            let left = left + account.into_that_day(at);
            let between = |on: When| before.surely_before(on) && on.surely_before(when);
            let taken = sum(taken, between);
            // A count that grew is already reported by `community-pot-grows`.
            if taken == 0 || wide(tally.count) > left + taken {
                continue;
            }
            self.compare(Excess {
                code: Code("numbered-still-counted"),
                severity: Severity::Warning,
                title: format!(
                    "community pot {} still counts seedlings that {}",
                    community_pot.code, words.counted
                ),
                more: (wide(tally.count), "seedlings alive"),
                than: (left, words.left),
                anchor: self.anchor(tally.on),
                field: "count",
                help: words.help,
            });
        }
    }
}

/// What is said of those taken out of a pot: that they were numbered, or also that some are gone.
struct TakenWords {
    from: &'static str,
    since: &'static str,
    out: &'static str,
    counted: &'static str,
    left: &'static str,
    help: &'static str,
}

impl TakenWords {
    fn of(account: &PotAccount) -> Self {
        match account.gone.is_empty() {
            true => TakenWords {
                from: "numbered from",
                since: "seedlings numbered from it since",
                out: "seedlings numbered out of it",
                counted: "have numbers",
                left: "left after those numbered since the count before",
                help: "leave numbered seedlings out of the count of their community pot",
            },
            false => TakenWords {
                from: "numbered or gone from",
                since: "seedlings numbered or gone from it since",
                out: "seedlings numbered or gone from it",
                counted: "have numbers or are gone",
                left: "left after those numbered and gone since the count before",
                help: "leave seedlings that were numbered or are gone out of the count, or correct the number in `gone`",
            },
        }
    }
}

/// How many were taken out on such days.
fn sum(taken: &[(When, u64)], on: impl Fn(When) -> bool) -> u64 {
    let then = taken.iter().filter(|(day, _)| on(*day));
    then.map(|(_, seedlings)| seedlings).sum()
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
