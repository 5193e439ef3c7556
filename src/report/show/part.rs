//! A part of a cross: a zone, a pod, a seed lot, a sowing, a community pot.

use super::answer::{Fact, ShowReport};
use super::muddles::muddles;
use super::screen::{Screen, fact, stages};
use crate::analysis::show::{
    numbered_of_pod, numbered_of_sowing, pod_history, pods_of_zone, sowing_history,
};
use crate::naming::recorded::TopOf;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::tally::seeds_are_a_guess;
use crate::registry::{CrossRow, LotRow, PodRow, PotRow, SowingRow, ZoneRow};
use crate::report::caution::RankedCaution;
use crate::wording::about;

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
            fact("place", record.place.as_deref()),
            numbered(numbered_of_sowing(self.registry, sowing)),
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
        let facts = [
            fact("pod", record.pod),
            fact("seeds", record.seeds.map(|n| about(n, record.estimated))),
            fact(
                "seeds with an embryo",
                record.embryo_percent.map(|percent| format!("{percent} %")),
            ),
            fact("left", record.left.as_deref()),
        ];
        self.part(lot.cross, ("seed lot", id), facts)
    }

    /// One community pot: seedlings that are still only a count.
    pub fn community_pot(&self, pot: PotRow, id: &str) -> ShowReport {
        let record = &self.registry[pot];
        let left = community_pot_left(self.registry, pot, self.context.today);
        let counts = record.alive.iter();
        let counts: Vec<String> = counts
            .map(|tally| format!("{} on {}", tally.count, self.typed(tally.on)))
            .collect();
        let facts = [
            fact("sowing", record.sowing),
            fact(
                "one of the pods",
                (!record.one_of.is_empty()).then(|| record.one_of.join(", ")),
            ),
            fact("mixed up", muddles(&record.muddled)),
            fact("left", left.is_less().then(|| left.words())),
            fact("alive", (!counts.is_empty()).then(|| counts.join(", "))),
            fact("pot", record.pot.as_deref()),
            fact("place", record.place.as_deref()),
        ];
        let top = TopOf::Pot(pot);
        ShowReport {
            name: self.name(top),
            cautions: RankedCaution::doubts(self.names.doubts([top])).collect(),
            ..self.part(pot.cross, ("community pot", id), facts)
        }
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

fn numbered(count: usize) -> Option<Fact> {
    fact("numbered seedlings", Some(count.to_string()))
}
