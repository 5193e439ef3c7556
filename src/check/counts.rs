//! Do the counts balance: flowers and pods, seed in pods and lots, seed sown, seedlings up, seedlings numbered?
//!
//! More than there can be is a fault; more than was counted is a warning, since a later count may be missing; a number
//! said to be a guess gives a warning at most.

use super::context::CheckContext;
use super::excess::{Counts, Excess, wide};
use crate::diagnostic::{Code, Finding, Severity};
use crate::observation::seed_left::took_at_least;
use crate::record::{Pollination, SeedLot, Sowing};
use crate::registry::CrossRow;

/// Every count on the page of a cross.
pub(super) fn of_cross(context: &CheckContext, cross: CrossRow) -> Vec<Finding> {
    let mut counts = Counts {
        context,
        cross,
        found: Vec::new(),
    };
    let page = context.page(cross);
    page.pollinations.iter().for_each(|p| counts.pollination(p));
    counts.pods();
    page.seed_lots.iter().for_each(|lot| counts.seed_lot(lot));
    for (row, sowing) in context.registry.sowings(cross) {
        counts.sowing(row, sowing);
        counts.standing(sowing);
    }
    counts.seedlings();
    counts.community_pots();
    counts.found
}

/// What to do where more was sown than a guess.
const GUESSED_LOW: &str = "the number was a guess: correct it; if seed of another pod was sown with it, those seedlings come from one of two pods";

impl<'t> Counts<'_, '_, 't> {
    fn pollination(&mut self, p: &Pollination<'t>) {
        let zone = p.zone;
        let pairs = [
            (
                p.set,
                p.flowers,
                "set",
                format!("more flowers of zone {zone} set than it had"),
                ("flowers set", "flowers treated"),
            ),
            (
                p.control_set,
                p.control_flowers,
                "control_set",
                format!("more controls of zone {zone} set than it had"),
                ("controls set", "flowers left alone"),
            ),
            (
                p.spike_control_set,
                p.spike_control_flowers,
                "spike_control_set",
                format!("more controls of the spike of zone {zone} set than it had"),
                ("controls set", "flowers of the spike left alone"),
            ),
        ];
        for (set, flowers, field, title, (more, than)) in pairs {
            if let (Some(set), Some(flowers)) = (set, flowers) {
                self.compare(Excess {
                    code: Code("more-pods-than-flowers"),
                    severity: Severity::Fault,
                    title,
                    more: (wide(set), more),
                    than: (wide(flowers), than),
                    anchor: self.anchor(p.zone),
                    field,
                    help: "count the flowers again; perhaps some of another zone were counted too",
                });
            }
        }
    }

    fn pods(&mut self) {
        let page = self.context.page(self.cross);
        for pollination in &page.pollinations {
            let Some(set) = pollination.set else { continue };
            let mut of_zone = page
                .pods
                .iter()
                .filter(|pod| pod.zone == Some(pollination.zone));
            let capsules: u64 = of_zone
                .clone()
                .filter_map(|pod| pod.capsules)
                .map(wide)
                .sum();
            if let Some(last) = of_zone.next_back() {
                self.compare(Excess {
                    code: Code("more-capsules-than-set"),
                    severity: Severity::Warning,
                    title: format!("more capsules than zone {} set", pollination.zone),
                    more: (capsules, "capsules in its pods"),
                    than: (wide(set), "flowers set"),
                    anchor: self.anchor(last.code),
                    field: "capsules",
                    help: "`set` may have been counted too early, or this pod holds capsules of another zone: find out which",
                });
            }
        }
        for pod in &page.pods {
            let Some(seeds) = pod.seeds else { continue };
            let mut lots = page
                .seed_lots
                .iter()
                .filter(|lot| lot.pod == Some(pod.code));
            let guessed = lots.clone().any(|lot| lot.estimated);
            let in_lots: u64 = lots.clone().filter_map(|lot| lot.seeds).map(wide).sum();
            if let Some(last) = lots.next_back() {
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
                    help: "write `estimated: true` where a number is a guess",
                });
            }
            let is_of_it = |s: &Sowing| s.lot.is_none() && s.pod == Some(pod.code);
            self.sown_from(is_of_it, wide(seeds), pod.code, false);
        }
    }

    fn sown_from(
        &mut self,
        is_of_it: impl Fn(&Sowing) -> bool,
        left: u64,
        source: &str,
        guessed: bool,
    ) {
        let page = self.context.page(self.cross);
        let sown = page.sowings.iter().filter(|of| is_of_it(of));
        let seeds = sown.clone().map(|of| wide(took_at_least(page, of))).sum();
        let is_counted = sown.clone().all(|of| of.seeds.is_some());
        let Some(last) = sown.last() else {
            return;
        };
        self.compare(Excess {
            code: Code("more-sown-than-seed"),
            severity: if guessed { Severity::Warning } else { Severity::Fault },
            title: format!("more seed sown from {source} than it held"),
            more: match is_counted {
                true => (seeds, "seeds sown"),
                false => (seeds, "seeds sown or come up"),
            },
            than: match guessed {
                true => (left, "seeds left to sow, by a guess"),
                false => (left, "seeds left to sow"),
            },
            anchor: self.anchor(last.code),
            field: "seeds",
            help: if guessed { GUESSED_LOW } else { "count again; if seed of another pod was sown with it, those seedlings come from one of two pods" },
        });
    }

    fn seed_lot(&mut self, lot: &SeedLot<'t>) {
        if let Some(percent) = lot.embryo_percent.filter(|percent| *percent > 100) {
            let place = self.context.field(self.anchor(lot.code), "embryo_percent");
            self.found.push(
                Finding::fault(
                    Code("percent-over-100"),
                    "more than 100 percent of the seeds",
                )
                .at(place)
                .found(format!("{percent} percent"))
                .needed("0 to 100 percent"),
            );
        }
        let given = lot.handed_on();
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
            field: if lot.gone.is_empty() {
                "given_away"
            } else {
                "gone"
            },
            help: "write `estimated: true` where a number is a guess",
        });
        let left = seeds.saturating_sub(given);
        self.sown_from(|s| s.lot == Some(lot.code), left, lot.code, lot.estimated);
    }
}
