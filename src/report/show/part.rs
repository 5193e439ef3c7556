//! A part of a cross: a zone, a pod, a seed lot, a sowing, a community pot.

use super::answer::ShowReport;
use super::muddles::muddles;
use super::plant::treatments;
use super::screen::{Screen, handed_on, stages};
use crate::analysis::show::{
    lot_history, numbered_of_pod, numbered_of_sowing, perhaps_of_pod, perhaps_of_sowing,
    pod_history, pods_of_zone, sowing_history,
};
use crate::naming::recorded::TopOf;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::count_in_sowing::counts_of;
use crate::observation::seed_left::seed_left;
use crate::observation::seedling_trays::SeedlingTray;
use crate::observation::sowing_left::{LeftBy, sowing_left};
use crate::observation::standing::{fate_words, seed_fate_words};
use crate::observation::tally::seeds_are_a_guess;
use crate::observation::treated::treated_tray;
use crate::record::{Fate, PartGone, Pricking, Sowing, Tally};
use crate::registry::{CrossRow, LotRow, MixedUp, PodRow, PotRow, SowingRow, ZoneRow};
use crate::report::caution::RankedCaution;
use crate::report::fact::{Fact, fact};
use crate::report::plants::typed;
use crate::wording::{about, counted, joined_if_any, led_by};

impl Screen<'_, '_, '_> {
    /// One pod.
    pub fn pod(&self, pod: PodRow, id: &str) -> ShowReport {
        let record = &self.registry[pod];
        let is_guess = seeds_are_a_guess(&self.registry[pod.cross].page, record.code);
        let facts = [
            fact("zone", record.zone),
            fact("capsules", record.capsules.map(|n| n.to_string())),
            fact("seeds", record.seeds.map(|n| about(n, is_guess))),
            numbered(numbered_of_pod(self.registry, pod)),
            perhaps(perhaps_of_pod(self.registry, pod), "pod"),
            fact("note", record.note.as_deref()),
        ];
        let history = stages(&pod_history(self.context, pod));
        ShowReport {
            history,
            ..self.part(pod.cross, ("pod", id), facts)
        }
    }

    /// One sowing.
    pub fn sowing(&self, sowing: SowingRow, id: &str) -> ShowReport {
        let record = &self.registry[sowing];
        let facts = [
            fact("seeds", record.seeds.map(|n| n.to_string())),
            fact("container", record.container.as_deref()),
            fact("medium", record.medium.as_deref()),
            fact("came up", self.counts_words(&record.germinated)),
            fact("pricked out", self.prickings_words(&record.pricked_out)),
            fact("left", self.left_words(sowing)),
            numbered(numbered_of_sowing(self.registry, sowing)),
            perhaps(perhaps_of_sowing(self.registry, sowing), "sowing"),
            fact("fate", record.fate.as_ref().map(fate_words)),
            fact("handed on", handed_on(record.fate.as_ref())),
            fact("place", record.place.as_deref()),
            self.place_treated(SeedlingTray::Sowing(sowing)),
            fact("note", record.note.as_deref()),
        ];
        let history = stages(&sowing_history(self.context, sowing));
        ShowReport {
            history,
            ..self.part(sowing.cross, ("sowing", id), facts)
        }
    }

    /// One zone of a spike, pollinated alike.
    pub fn zone(&self, zone: ZoneRow, id: &str) -> ShowReport {
        let record = &self.registry[zone];
        let pods = pods_of_zone(self.registry, zone);
        let pods = pods.iter().map(|pod| self.pod_line(pod)).collect();
        let facts = [
            fact("pollinated", Some(self.zone_words(record))),
            fact("on", record.plant),
        ];
        ShowReport {
            pods,
            ..self.part(zone.cross, ("zone", id), facts)
        }
    }

    /// One seed lot.
    pub fn seed_lot(&self, lot: LotRow, id: &str) -> ShowReport {
        let record = &self.registry[lot];
        let page = &self.registry[lot.cross].page;
        let of = seed_left(self.registry, page, record, self.context.today);
        let is_used = !of.sown.is_empty() || record.handed_on() > 0;
        let is_counted = of.sown.iter().all(|sowing| sowing.seeds.is_some());
        let at_most = if is_counted { "" } else { "at most " };
        let left = of.left.filter(|_| is_used);
        let left = left.map(|left| format!("{at_most}{}", about(left, record.estimated)));
        let ended = record.fate.as_ref().map(|fate| {
            let to = handed_on(Some(fate)).map(|to| format!(" ({to})"));
            format!(
                "none: the rest {}{}",
                seed_fate_words(fate),
                to.unwrap_or_default()
            )
        });
        let facts = [
            fact("pod", record.pod),
            fact("seeds", record.seeds.map(|n| about(n, record.estimated))),
            fact(
                "seeds with an embryo",
                record.embryo_percent.map(|percent| format!("{percent} %")),
            ),
            fact("came", record.came.map(|on| typed(self.registry, on))),
            fact("kept", record.stored.as_deref()),
            fact("given away", record.given_away.map(|n| n.to_string())),
            fact("gone", self.parts_words(&record.gone, seed_fate_words)),
            fact("sown", joined_if_any(of.sown.iter().map(sown_words), "; ")),
            fact(
                "left",
                ended.or(record.left.as_deref().map(str::to_owned)).or(left),
            ),
            fact("note", record.note.as_deref()),
        ];
        let history = lot_history(self.context, lot);
        ShowReport {
            history: history.as_ref().map(stages).unwrap_or_default(),
            ..self.part(lot.cross, ("seed lot", id), facts)
        }
    }

    /// One community pot: seedlings that are still only a count.
    pub fn community_pot(&self, pot: PotRow, id: &str) -> ShowReport {
        let record = &self.registry[pot];
        let left = community_pot_left(self.registry, pot, self.context.today);
        let facts = [
            fact("sowing", record.sowing),
            fact("one of the pods", joined_if_any(&record.one_of, ", ")),
            fact(
                "mixed up",
                muddles(self.registry.mix_ups_of(MixedUp::Pot(pot))),
            ),
            fact(
                "left",
                (left.is_changed() && record.fate.is_none()).then(|| left.words()),
            ),
            fact("alive", self.counts_words(&record.alive)),
            fact("gone", self.parts_words(&record.gone, fate_words)),
            fact("fate", record.fate.as_ref().map(fate_words)),
            fact("handed on", handed_on(record.fate.as_ref())),
            fact("pot", record.pot.as_deref()),
            fact("place", record.place.as_deref()),
            self.place_treated(SeedlingTray::Pot(pot)),
            fact("note", record.note.as_deref()),
        ];
        let top = TopOf::Pot(pot);
        ShowReport {
            name: self.name(top),
            cautions: RankedCaution::doubts(self.names.doubts([top])).collect(),
            ..self.part(pot.cross, ("community pot", id), facts)
        }
    }

    /// `15 on 2025-10-20, 64 on 2025-12-01`.
    fn counts_words(&self, counts: &[Tally]) -> Option<String> {
        let one = |tally: &Tally| format!("{} {}", tally.count, self.at_typed(tally.on));
        joined_if_any(self.by_day(counts, |of| of.on).map(one), ", ")
    }

    /// `5 sold on 2025-10-20 (to Ann); 3 died on 2025-12-01 (mould)`.
    fn parts_words(&self, parts: &[PartGone], fate_words: fn(&Fate) -> String) -> Option<String> {
        let one = |of: &PartGone| {
            let to = handed_on(Some(&of.fate)).map(|to| format!(" ({to})"));
            let fate = fate_words(&of.fate);
            format!("{} {fate}{}", of.count, to.unwrap_or_default())
        };
        joined_if_any(self.by_day(parts, |of| of.fate.on()).map(one), "; ")
    }

    /// `24 on 2023-03-30 into 2.5 cm plugs, 15 left behind`.
    fn prickings_words(&self, prickings: &[Pricking]) -> Option<String> {
        let one = |of: &Pricking| {
            let to = led_by(" into ", of.to.as_deref());
            let left = led_by(", ", of.left.map(|left| format!("{left} left behind")));
            format!("{} {}{to}{left}", of.moved, self.at_typed(of.on))
        };
        joined_if_any(self.by_day(prickings, |of| of.on).map(one), "; ")
    }

    /// In the order of their days, whatever the order in which they were entered.
    fn by_day<'p, R>(&self, of: &'p [R], on: impl Fn(&R) -> &str) -> impl Iterator<Item = &'p R> {
        let mut of: Vec<&R> = of.iter().collect();
        of.sort_by_key(|of| self.registry.when(on(of)).last);
        of.into_iter()
    }

    /// What may be left of a sowing out of which seedlings were taken, or that was counted.
    fn left_words(&self, sowing: SowingRow) -> Option<String> {
        let of = sowing_left(self.registry, sowing, self.context.today);
        let taken_out = of.taken_out.is_some() && self.registry[sowing].fate.is_none();
        let left = of.left.filter(|_| of.by == LeftBy::Count || taken_out)?;
        let known = match of.by {
            LeftBy::End => " by the last count",
            LeftBy::Count if of.is_changed => " by the last count and what changed since",
            LeftBy::Count => " by the last count",
            LeftBy::Pricking | LeftBy::CameUp => ", less those that died since",
        };
        let mut counts = counts_of(self.registry, sowing);
        let only = counts.next().filter(|_| counts.next().is_none());
        Some(match left {
            (0, 0) => "none".to_owned(),
            (0, most) => format!("up to {most}"),
            _ if of.is_changed && only.is_some() => {
                community_pot_left(self.registry, only?, self.context.today).words()
            }
            (least, most) if least == most => format!("{most}{known}"),
            (least, most) => format!("{least}–{most}{known}"),
        })
    }

    fn place_treated(&self, tray: SeedlingTray) -> Option<Fact> {
        fact(
            "place treated",
            treatments(&treated_tray(self.registry, tray), true),
        )
    }

    fn part(
        &self,
        at: CrossRow,
        named: (&'static str, &str),
        facts: impl IntoIterator<Item = Option<Fact>>,
    ) -> ShowReport {
        let top = TopOf::Cross(at);
        ShowReport {
            id: named.1.to_owned(),
            what: named.0,
            name: self.name(top),
            facts: facts.into_iter().flatten().collect(),
            cautions: RankedCaution::doubts(self.names.doubts([top])).collect(),
            ..ShowReport::default()
        }
    }
}

/// `120 seeds in S1`.
fn sown_words(of: &&Sowing) -> String {
    let seeds = |n: u32| counted(n as usize, "seed", "seeds");
    let seeds = of.seeds.map_or("an unknown number".to_owned(), seeds);
    format!("{seeds} in {}", of.code)
}

fn perhaps(count: usize, of: &str) -> Option<Fact> {
    let count = (count > 0).then(|| format!("{count}, {of} not known for certain"));
    fact("more that may be of it", count)
}

fn numbered(count: usize) -> Option<Fact> {
    fact("numbered seedlings", Some(count.to_string()))
}
