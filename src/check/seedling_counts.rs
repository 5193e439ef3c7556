//! Do the counts of seedlings balance: up, pricked out, numbered, in community pots?

use super::excess::{Counts, Excess, wide};
use crate::diagnostic::{Code, Finding, Severity};
use crate::observation::count_in_sowing::counts_in_sowing;
use crate::observation::pot_account::{PotAccount, account_with, pot_account};
use crate::observation::sowing_left::SowingAccount;
use crate::record::{CommunityPot, Day, Sowing, Tally, When};
use crate::registry::{PotRow, SowingRow};
use std::cmp::Ordering;

impl<'t> Counts<'_, '_, 't> {
    /// Seedlings of one sowing against its seed.
    pub fn sowing(&mut self, row: SowingRow, sowing: &Sowing<'t>) {
        self.falling(&sowing.germinated);
        let up = sowing.germinated.iter().max_by_key(|tally| tally.count);
        if let (Some(most), Some(seeds)) = (up, sowing.seeds) {
            self.compare(Excess {
                code: Code("more-germinated-than-sown"),
                severity: Severity::Fault,
                title: format!("more seedlings up in {} than seeds sown", sowing.code),
                more: (wide(most.count), "seedlings up"),
                than: (wide(seeds), "seeds sown"),
                anchor: self.anchor(most.on),
                field: "count",
                help: "`germinated` is a running total, not what came up since the last count",
            });
        }
        if let Some(up) = up {
            self.moved(row, sowing, up);
        }
    }

    /// Seedlings pricked out of a sowing, and those counted in community pots that no pricking out filled, against those up.
    fn moved(&mut self, row: SowingRow, sowing: &Sowing<'t>, up: &Tally) {
        let pricked: u64 = sowing.pricked_out.iter().map(|p| wide(p.moved)).sum();
        let moved = SowingAccount::of(self.context.registry, row).moved_out();
        let (title, what, help) = match moved > pricked {
            true => (
                "taken out",
                "seedlings pricked out or counted in pots",
                "add the later count to `germinated`, or correct the numbers; where a pricking out filled one of the pots, name that pot in its `to`",
            ),
            false => (
                "pricked out",
                "seedlings pricked out",
                "add the later count to `germinated`, or correct the number moved",
            ),
        };
        let Some((on, field)) = self.last_moved(sowing, up) else {
            return;
        };
        self.compare(Excess {
            code: Code("more-pricked-out-than-germinated"),
            severity: Severity::Warning,
            title: format!("more seedlings {title} of {} than came up", sowing.code),
            more: (moved, what),
            than: (wide(up.count), "seedlings up at the last count"),
            anchor: self.anchor(on),
            field,
            help,
        });
    }

    /// The day as typed, and the field of its number, of the last pricking out, or where there is none of the last count in a
    /// community pot. One pot with more than came up has a finding of its own.
    fn last_moved(&self, sowing: &Sowing<'t>, up: &Tally) -> Option<(&'t str, &'static str)> {
        if let Some(last) = sowing.pricked_out.last() {
            return Some((last.on, "moved"));
        }
        let pots = self.context.page(self.cross).community_pots.iter();
        let mut counts = pots
            .filter(|pot| pot.sowing == Some(sowing.code))
            .flat_map(|pot| &pot.alive);
        if counts.clone().any(|tally| tally.count > up.count) {
            return None;
        }
        counts.next_back().map(|tally| (tally.on, "count"))
    }

    /// More pricked out of a sowing than stood in it.
    pub fn standing(&mut self, sowing: &Sowing<'t>) {
        let page = self.context.page(self.cross);
        let Some(at) = counts_in_sowing(page, sowing).next() else {
            return;
        };
        let cross = self.cross;
        let account = pot_account(self.context.registry, PotRow { cross, at }, Day::LAST);
        for (at, pricking) in sowing.pricked_out.iter().enumerate() {
            let on = self.context.when(pricking.on);
            let Some(on) = on.filter(|_| pricking.to.is_some()) else {
                continue;
            };
            // Those entered before it on one day were taken first.
            let same_day = sowing.pricked_out[..at].iter();
            let same_day = same_day.filter(|of| of.on == pricking.on);
            let same_day: u64 = same_day.map(|of| wide(of.moved)).sum();
            let Some(than) = most_to_prick(&account, on, same_day) else {
                continue;
            };
            self.compare(Excess {
                code: Code("more-pricked-out-than-standing"),
                severity: Severity::Warning,
                title: format!(
                    "more seedlings pricked out of {} than stood in it",
                    sowing.code
                ),
                more: (wide(pricking.moved), "seedlings pricked out"),
                than,
                anchor: self.anchor(pricking.on),
                field: "moved",
                help: "correct the number moved, or add the later count of those alive",
            });
        }
    }

    /// Running totals must not fall from one day to a surely later one.
    fn falling(&mut self, tallies: &[Tally<'t>]) {
        let tallies = tallies.iter();
        let mut by_day: Vec<(When, &Tally)> = tallies
            .filter_map(|tally| Some((self.context.when(tally.on)?, tally)))
            .collect();
        by_day.sort_by_key(|(when, _)| when.last);
        for pair in by_day.windows(2) {
            let ((first, before), (second, after)) = (pair[0], pair[1]);
            if first.surely_before(second) && after.count < before.count {
                let place = self.context.field(self.anchor(after.on), "count");
                self.found.push(
                    Finding::fault(Code("falling-total"), "a running total falls")
                        .at(place)
                        .found(format!(
                            "{} on {} after {} on {}",
                            after.count, after.on, before.count, before.on
                        ))
                        .needed(format!("{} or more", before.count))
                        .help("`germinated` counts all that ever came up; record deaths in a community pot or a seedling's fate"),
                );
            }
        }
    }

    /// Numbered seedlings of each sowing against the seedlings that came up there.
    pub fn seedlings(&mut self) {
        let page = self.context.page(self.cross);
        let mut numbered = vec![0u64; page.sowings.len()];
        for &plant in &self.context.cross(self.cross).seedlings {
            if let (Some(sowing), ..) = self.context.registry.road(plant) {
                numbered[sowing.at] += 1;
            }
        }
        for (sowing, numbered) in page.sowings.iter().zip(numbered) {
            let up = sowing.germinated.iter().max_by_key(|tally| tally.count);
            let (than, severity, anchor, field) = match (up, sowing.seeds) {
                (_, Some(seeds)) if numbered > wide(seeds) => (
                    (wide(seeds), "seeds sown"),
                    Severity::Fault,
                    self.anchor(sowing.code),
                    "seeds",
                ),
                (Some(up), _) => (
                    (wide(up.count), "seedlings up at the last count"),
                    Severity::Warning,
                    self.anchor(up.on),
                    "count",
                ),
                _ => continue,
            };
            self.compare(Excess {
                code: Code("more-seedlings-than-germinated"),
                severity,
                title: format!("more numbered seedlings of {} than came up", sowing.code),
                more: (numbered, "numbered seedlings"),
                than,
                anchor,
                field,
                help: "add the later count to `germinated`, or perhaps some of these seedlings come from another sowing",
            });
        }
    }

    /// A community pot cannot hold more than came up in its sowing, and does not grow but by what is pricked out into it.
    pub fn community_pots(&mut self) {
        let page = self.context.page(self.cross);
        for (row, community_pot) in self.context.registry.community_pots(self.cross) {
            let sowing = page
                .sowings
                .iter()
                .find(|s| Some(s.code) == community_pot.sowing);
            let account = account_with(self.context.registry, row, Day::LAST, None);
            for (at, tally) in self.by_eye(community_pot, &account).into_iter().enumerate() {
                let (Some((before, _)), Some(most)) =
                    (account.count_before(at), account.most(account.counts[at].1))
                else {
                    continue;
                };
                let most = most + account.into_that_day(at);
                self.compare(Excess {
                    code: Code("community-pot-grows"),
                    severity: Severity::Warning,
                    title: format!(
                        "community pot {} holds more seedlings than before",
                        community_pot.code
                    ),
                    more: (wide(tally.count), "seedlings alive"),
                    than: match most.cmp(&wide(before)) {
                        Ordering::Equal => (most, "at the count before"),
                        Ordering::Greater => {
                            (most, "at the count before and pricked out into it since")
                        }
                        Ordering::Less => {
                            (most, "at the count before, less those pricked out since")
                        }
                    },
                    anchor: self.anchor(tally.on),
                    field: "count",
                    help: "if seedlings were added, record from which sowing; write a muddled tray with `one_of`",
                });
            }
            let up = sowing.and_then(|s| s.germinated.iter().max_by_key(|tally| tally.count));
            if let (Some(up), Some(first)) =
                (up, community_pot.alive.iter().max_by_key(|t| t.count))
            {
                self.compare(Excess {
                    code: Code("more-in-community-pot-than-germinated"),
                    severity: Severity::Warning,
                    title: format!("community pot {} holds more seedlings than came up", community_pot.code),
                    more: (wide(first.count), "seedlings alive"),
                    than: (wide(up.count), "seedlings up at the last count of its sowing"),
                    anchor: self.anchor(first.on),
                    field: "count",
                    help: "add the later count to `germinated`, or perhaps seed of another sowing came up there",
                });
            }
            if let (Some(sowing), Some(up)) = (sowing, up) {
                self.standing_and_taken(sowing, (row, community_pot), up);
            }
        }
    }

    /// Those counted in a sowing came up there, and so did those taken out of it before.
    fn standing_and_taken(
        &mut self,
        sowing: &Sowing<'t>,
        (row, pot): (PotRow, &CommunityPot<'t>),
        up: &Tally,
    ) {
        let page = self.context.page(self.cross);
        if !counts_in_sowing(page, sowing).any(|at| at == row.at) {
            return;
        }
        let account = pot_account(self.context.registry, row, Day::LAST);
        let counts = self.by_eye(pot, &account).into_iter().enumerate();
        let counts = counts.map(|(at, tally)| (account.out_before(at), tally));
        // A single count of more than came up has a finding of its own, above.
        let mut counts = counts.filter(|(_, tally)| tally.count <= up.count);
        let too_many = counts.find(|(taken, tally)| wide(tally.count) + taken > wide(up.count));
        let Some((taken, tally)) = too_many else {
            return;
        };
        self.compare(Excess {
            code: Code("more-in-community-pot-than-germinated"),
            severity: Severity::Warning,
            title: format!("more seedlings of {} than came up", sowing.code),
            more: (
                wide(tally.count) + taken,
                "seedlings alive in it or taken out of it before",
            ),
            than: (wide(up.count), "seedlings up at the last count"),
            anchor: self.anchor(tally.on),
            field: "count",
            help: "add the later count to `germinated`, or correct the count, or the number taken out",
        });
    }
}

/// The most that a pricking out can have taken by the counts of what stands there, those of that day taken before off, and
/// what that number is. A count that may be of the day of the pricking is of what it took from or of what it left.
fn most_to_prick(account: &PotAccount, on: When, same_day: u64) -> Option<(u64, &'static str)> {
    let counts = account.counts.iter().zip(&account.before);
    let counts = counts.filter(|((_, when), _)| !on.surely_before(*when));
    let (before, that_day): (Vec<_>, Vec<_>) =
        counts.partition(|((_, when), _)| when.surely_before(on));
    let by_day = that_day.into_iter().map(|((count, _), stood)| {
        let count = wide(*count);
        // Nothing says how many stood there before it: so many may be gone.
        let gone = stood.map_or(u64::MAX, |stood| stood.saturating_sub(count));
        match gone > count {
            true => (gone, "fewer at the last count"),
            false => (count, "alive at the last count"),
        }
    });
    let counted = before.last().map(|((count, _), _)| wide(*count));
    let left = counted.and_then(|counted| {
        let left = account.most(on)?.saturating_sub(same_day);
        Some(match left < counted {
            true => (left, "left of those alive at the last count"),
            false => (left, "alive at the last count"),
        })
    });
    by_day.chain(left).max_by_key(|(most, _)| *most)
}
