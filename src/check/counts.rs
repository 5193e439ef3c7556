//! Do the counts balance: flowers and pods, seed in pods and lots, seed sown, seedlings up, seedlings numbered?
//!
//! More than there can be is a fault; more than was counted is a warning, since a later count may be missing; a number
//! said to be a guess gives a warning at most.

use super::ground::{Anchor, Ground};
use crate::diagnostic::{Code, Finding, Severity};
use crate::record::{Pollination, SeedLot, Sowing, Tally};

/// The counts of one cross.
struct Counts<'g, 'r, 't> {
    ground: &'g Ground<'r, 't>,
    cross: usize,
    found: Vec<Finding>,
}

/// More of something than there was of another.
struct Excess<'t> {
    code: Code,
    severity: Severity,
    title: String,
    /// The number that is too great, and its name.
    more: (u64, &'static str),
    /// The number it may not exceed, and its name.
    than: (u64, &'static str),
    anchor: Anchor<'t>,
    field: &'static str,
    help: &'static str,
}

/// Every count on the page of a cross.
pub(super) fn of_cross(ground: &Ground, cross: usize) -> Vec<Finding> {
    let mut counts = Counts {
        ground,
        cross,
        found: Vec::new(),
    };
    let page = ground.page(cross);
    page.pollinations.iter().for_each(|p| counts.pollination(p));
    counts.pods();
    page.seed_lots.iter().for_each(|lot| counts.seed_lot(lot));
    page.sowings.iter().for_each(|sowing| counts.sowing(sowing));
    counts.seedlings();
    counts.patches();
    counts.found
}

fn wide(count: u32) -> u64 {
    u64::from(count)
}

impl<'t> Counts<'_, '_, 't> {
    fn anchor(&self, text: &'t str) -> Anchor<'t> {
        let file = self.ground.cross(self.cross).file;
        Anchor { file, text }
    }

    fn compare(&mut self, excess: Excess<'t>) {
        let ((more, what), (than, of)) = (excess.more, excess.than);
        if more <= than {
            return;
        }
        let place = self.ground.field(excess.anchor, excess.field);
        self.found.push(
            Finding::new(excess.severity, excess.code, excess.title)
                .at(place)
                .found(format!("{more} {what}, {than} {of}"))
                .needed(format!("at most {than} {what}"))
                .help(excess.help),
        );
    }

    fn pollination(&mut self, p: &Pollination<'t>) {
        let pairs = [
            (p.set, p.flowers, "set", "flowers treated"),
            (
                p.control_set,
                p.control_flowers,
                "control_set",
                "flowers left alone",
            ),
        ];
        for (set, flowers, field, of) in pairs {
            if let (Some(set), Some(flowers)) = (set, flowers) {
                self.compare(Excess {
                    code: Code("more-pods-than-flowers"),
                    severity: Severity::Fault,
                    title: format!("zone {} set more pods than it had flowers", p.zone),
                    more: (wide(set), "pods set"),
                    than: (wide(flowers), of),
                    anchor: self.anchor(p.zone),
                    field,
                    help: "count the flowers again, or is a part of another zone counted in?",
                });
            }
        }
    }

    fn pods(&mut self) {
        let page = self.ground.page(self.cross);
        for pollination in &page.pollinations {
            let Some(set) = pollination.set else { continue };
            let of_zone = page
                .pods
                .iter()
                .filter(|pod| pod.zone == Some(pollination.zone));
            let capsules: u64 = of_zone
                .clone()
                .filter_map(|pod| pod.capsules)
                .map(wide)
                .sum();
            if let Some(last) = of_zone.last() {
                self.compare(Excess {
                    code: Code("more-capsules-than-set"),
                    severity: Severity::Warning,
                    title: format!("more capsules than zone {} set", pollination.zone),
                    more: (capsules, "capsules in its pods"),
                    than: (wide(set), "pods set"),
                    anchor: self.anchor(last.code),
                    field: "capsules",
                    help: "`set` may have been counted too early, or capsules of another zone are in this pod: then whose are they?",
                });
            }
        }
        for pod in &page.pods {
            let Some(seeds) = pod.seeds else { continue };
            let lots = page
                .seed_lots
                .iter()
                .filter(|lot| lot.pod == Some(pod.code));
            let guessed = lots.clone().any(|lot| lot.estimated);
            let in_lots: u64 = lots.clone().filter_map(|lot| lot.seeds).map(wide).sum();
            if let Some(last) = lots.last() {
                self.compare(Excess {
                    code: Code("more-seed-than-pod"),
                    severity: if guessed {
                        Severity::Warning
                    } else {
                        Severity::Fault
                    },
                    title: format!("more seed in the lots of pod {} than it held", pod.code),
                    more: (in_lots, "seeds in its lots"),
                    than: (wide(seeds), "seeds in the pod"),
                    anchor: self.anchor(last.code),
                    field: "seeds",
                    help: "say `estimated: true` where a number is a guess",
                });
            }
            let sown = page
                .sowings
                .iter()
                .filter(|s| s.lot.is_none() && s.pod == Some(pod.code));
            let seeds_sown: u64 = sown.clone().filter_map(|s| s.seeds).map(wide).sum();
            if let Some(last) = sown.last() {
                self.sown_from(seeds_sown, wide(seeds), (last.code, pod.code), false);
            }
        }
    }

    fn sown_from(
        &mut self,
        sown: u64,
        left: u64,
        (sowing, source): (&'t str, &str),
        guessed: bool,
    ) {
        self.compare(Excess {
            code: Code("more-sown-than-seed"),
            severity: if guessed { Severity::Warning } else { Severity::Fault },
            title: format!("more seed sown from {source} than it held"),
            more: (sown, "seeds sown"),
            than: (left, "seeds there were to sow"),
            anchor: self.anchor(sowing),
            field: "seeds",
            help: "count again, or was seed of another pod sown with it? then those seedlings come from one of two pods",
        });
    }

    fn seed_lot(&mut self, lot: &SeedLot<'t>) {
        if let Some(percent) = lot.embryo_percent.filter(|percent| *percent > 100) {
            let place = self.ground.field(self.anchor(lot.code), "embryo_percent");
            self.found.push(
                Finding::fault(Code("percent-over-100"), "more than all seeds")
                    .at(place)
                    .found(format!("{percent} percent"))
                    .needed("0 to 100 percent"),
            );
        }
        let given = wide(lot.given_away.unwrap_or(0));
        let Some(seeds) = lot.seeds.map(wide) else {
            return;
        };
        let severity = if lot.estimated {
            Severity::Warning
        } else {
            Severity::Fault
        };
        self.compare(Excess {
            code: Code("more-given-than-seed"),
            severity,
            title: format!("more seed given away from {} than it held", lot.code),
            more: (given, "seeds given away"),
            than: (seeds, "seeds in the lot"),
            anchor: self.anchor(lot.code),
            field: "given_away",
            help: "say `estimated: true` where a number is a guess",
        });
        let page = self.ground.page(self.cross);
        let sowings = page.sowings.iter().filter(|s| s.lot == Some(lot.code));
        let sown: u64 = sowings.clone().filter_map(|s| s.seeds).map(wide).sum();
        if let Some(last) = sowings.last() {
            let left = seeds.saturating_sub(given);
            self.sown_from(sown, left, (last.code, lot.code), lot.estimated);
        }
    }

    fn sowing(&mut self, sowing: &Sowing<'t>) {
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
                help: "add the later count to `germinated`, or mend the number moved",
            });
        }
    }

    /// Running totals must not fall from one day to a surely later one.
    fn falling(&mut self, tallies: &[Tally<'t>]) {
        for pair in tallies.windows(2) {
            let (Some(first), Some(second)) =
                (self.ground.when(pair[0].on), self.ground.when(pair[1].on))
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
                let place = self.ground.field(self.anchor(after.on), "count");
                self.found.push(
                    Finding::fault(Code("falling-total"), "a running total falls")
                        .at(place)
                        .found(format!(
                            "{} on {} after {} on {}",
                            after.count, after.on, before.count, before.on
                        ))
                        .needed(format!("{} or more", before.count))
                        .help("`germinated` counts all that ever came up; deaths belong to a patch or a seedling's fate"),
                );
            }
        }
    }

    /// Numbered seedlings of each sowing against the seedlings that came up there.
    fn seedlings(&mut self) {
        let page = self.ground.page(self.cross);
        let mut numbered = vec![0u64; page.sowings.len()];
        for &plant in &self.ground.cross(self.cross).seedlings {
            if let (Some(sowing), ..) = self.ground.registry.road(plant) {
                numbered[sowing] += 1;
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
                help: "add the later count to `germinated`, or do some of these seedlings come from another sowing?",
            });
        }
    }

    /// A patch cannot hold more than came up in its sowing, and does not grow.
    fn patches(&mut self) {
        let page = self.ground.page(self.cross);
        for patch in &page.patches {
            for pair in patch.alive.windows(2) {
                let days = (self.ground.when(pair[0].on), self.ground.when(pair[1].on));
                if let (Some(first), Some(second)) = days
                    && first.surely_before(second)
                {
                    self.compare(Excess {
                        code: Code("patch-grows"),
                        severity: Severity::Warning,
                        title: format!("patch {} holds more seedlings than before", patch.code),
                        more: (wide(pair[1].count), "seedlings alive"),
                        than: (wide(pair[0].count), "at the count before"),
                        anchor: self.anchor(pair[1].on),
                        field: "count",
                        help: "were seedlings added? then from which sowing; a muddled tray is written as `one_of`",
                    });
                }
            }
            let sowing = page.sowings.iter().find(|s| Some(s.code) == patch.sowing);
            let up = sowing.and_then(|s| s.germinated.iter().max_by_key(|tally| tally.count));
            if let (Some(up), Some(first)) = (up, patch.alive.iter().max_by_key(|t| t.count)) {
                self.compare(Excess {
                    code: Code("more-in-patch-than-germinated"),
                    severity: Severity::Warning,
                    title: format!("patch {} holds more seedlings than came up", patch.code),
                    more: (wide(first.count), "seedlings alive"),
                    than: (wide(up.count), "seedlings up at the last count of its sowing"),
                    anchor: self.anchor(first.on),
                    field: "count",
                    help: "add the later count to `germinated`, or did seed of another sowing come up there?",
                });
            }
        }
    }
}
