//! Do the counts of seedlings balance: up, pricked out, numbered, in community pots?

use super::excess::{Counts, Excess, wide};
use crate::diagnostic::{Code, Finding, Severity};
use crate::observation::count_in_sowing::counts_in_sowing;
use crate::record::{Sowing, Tally, When};

impl<'t> Counts<'_, '_, 't> {
    /// Seedlings of one sowing against its seed.
    pub fn sowing(&mut self, sowing: &Sowing<'t>) {
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
        let moved: u64 = sowing.pricked_out.iter().map(|p| wide(p.moved)).sum();
        if let (Some(most), Some(last)) = (up, sowing.pricked_out.last()) {
            self.compare(Excess {
                code: Code("more-pricked-out-than-germinated"),
                severity: Severity::Warning,
                title: format!("more seedlings pricked out of {} than came up", sowing.code),
                more: (moved, "seedlings pricked out"),
                than: (wide(most.count), "seedlings up at the last count"),
                anchor: self.anchor(last.on),
                field: "moved",
                help: "add the later count to `germinated`, or correct the number moved",
            });
        }
    }

    /// More pricked out of a sowing than stood in it. A count of the same day may be of what was left, so the greatest of that
    /// day and the last before it counts.
    pub fn standing(&mut self, sowing: &Sowing<'t>) {
        let page = self.context.page(self.cross);
        let Some(standing) = counts_in_sowing(page, sowing).next() else {
            return;
        };
        let standing = &page.community_pots[standing];
        for pricking in sowing.pricked_out.iter().filter(|of| of.to.is_some()) {
            let Some(on) = self.context.when(pricking.on) else {
                continue;
            };
            let counts = standing.alive.iter();
            let counts: Vec<(u32, When)> = counts
                .filter_map(|tally| Some((tally.count, self.context.when(tally.on)?)))
                .filter(|(_, when)| !on.surely_before(*when))
                .collect();
            let before = counts.iter().filter(|(_, when)| when.surely_before(on));
            let before = before.max_by_key(|(_, when)| when.last);
            let that_day = counts.iter().filter(|(_, when)| !when.surely_before(on));
            let Some(most) = before.into_iter().chain(that_day).map(|of| of.0).max() else {
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
                than: (wide(most), "alive at the last count"),
                anchor: self.anchor(pricking.on),
                field: "moved",
                help: "correct the number moved, or add the later count of those alive",
            });
        }
    }

    /// Running totals must not fall from one day to a surely later one.
    fn falling(&mut self, tallies: &[Tally<'t>]) {
        for pair in tallies.windows(2) {
            let (Some(first), Some(second)) =
                (self.context.when(pair[0].on), self.context.when(pair[1].on))
            else {
                continue;
            };
            let (before, after) = if second.surely_before(first) {
                (&pair[1], &pair[0])
            } else {
                (&pair[0], &pair[1])
            };
            let ordered = first.surely_before(second) || second.surely_before(first);
            if ordered && after.count < before.count {
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

    /// Seedlings pricked out of a sowing into a pot after one count of it, and no later than another.
    fn added(&self, sowing: &Sowing<'t>, pot: &str, (first, second): (When, When)) -> u64 {
        let into = sowing.pricked_out.iter().filter(|of| {
            let when = self.context.when(of.on);
            of.to.as_deref() == Some(pot)
                && when.is_some_and(|on| first.surely_before(on) && !second.surely_before(on))
        });
        into.map(|of| wide(of.moved)).sum()
    }

    /// A community pot cannot hold more than came up in its sowing, and does not grow.
    pub fn community_pots(&mut self) {
        let page = self.context.page(self.cross);
        for community_pot in &page.community_pots {
            let sowing = page
                .sowings
                .iter()
                .find(|s| Some(s.code) == community_pot.sowing);
            for pair in community_pot.alive.windows(2) {
                let days = (self.context.when(pair[0].on), self.context.when(pair[1].on));
                if let (Some(first), Some(second)) = days
                    && first.surely_before(second)
                {
                    let added = sowing.map_or(0, |sowing| {
                        self.added(sowing, community_pot.code, (first, second))
                    });
                    self.compare(Excess {
                        code: Code("community-pot-grows"),
                        severity: Severity::Warning,
                        title: format!("community pot {} holds more seedlings than before", community_pot.code),
                        more: (wide(pair[1].count), "seedlings alive"),
                        than: match added {
                            0 => (wide(pair[0].count), "at the count before"),
                            added => (
                                wide(pair[0].count) + added,
                                "at the count before and pricked out into it since",
                            ),
                        },
                        anchor: self.anchor(pair[1].on),
                        field: "count",
                        help: "were seedlings added? then from which sowing; a muddled tray is written as `one_of`",
                    });
                }
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
        }
    }
}
