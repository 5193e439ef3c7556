//! A part of a cross: a zone, a pod, a seed lot, a sowing, a community pot.

use super::answer::{Fact, ShowReport};
use super::screen::{Screen, fact};
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::provenance::stages;
use crate::registry::{CrossRow, LotRow, PodRow, PotRow, SowingRow, ZoneRow};
use crate::report::caution::RankedCaution;

impl Screen<'_, '_, '_> {
    /// One pod.
    pub fn pod(&self, pod: PodRow, id: &str) -> ShowReport {
        let record = &self.registry[pod];
        let facts = [
            fact("zone", record.zone),
            fact("capsules", record.capsules.map(|n| n.to_string())),
            fact("seeds", record.seeds.map(|n| n.to_string())),
            self.numbered(pod.cross, |_, own_pod| own_pod == Some(pod)),
            fact("note", record.note.as_deref()),
        ];
        let history = self.stages(stages(self.registry, pod.cross, None, Some(pod)), None);
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
            self.numbered(sowing.cross, |own_sowing, _| own_sowing == Some(sowing)),
        ];
        let history = self.stages(
            stages(self.registry, sowing.cross, Some(sowing), None),
            None,
        );
        ShowReport {
            history,
            ..self.part(sowing.cross, ("sowing", id), facts)
        }
    }

    /// One zone of a spike, pollinated alike.
    pub fn zone(&self, zone: ZoneRow, id: &str) -> ShowReport {
        let record = &self.registry[zone];
        let pods = self.registry.pods(zone.cross);
        let pods = pods.filter(|(_, pod)| pod.zone == Some(record.zone));
        let pods = pods.map(|(pod, _)| self.pod_line(pod)).collect();
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
        let about = if record.estimated { "about " } else { "" };
        let facts = [
            fact("pod", record.pod),
            fact("seeds", record.seeds.map(|n| format!("{about}{n}"))),
            fact(
                "seeds with an embryo",
                record.embryo_percent.map(|percent| format!("{percent} %")),
            ),
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
            fact(
                "left",
                (left.taken + left.perhaps > 0).then(|| left.words()),
            ),
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

    /// How many numbered seedlings are of a sowing or a pod.
    fn numbered(
        &self,
        at: CrossRow,
        of: impl Fn(Option<SowingRow>, Option<PodRow>) -> bool,
    ) -> Option<Fact> {
        let is_of = |plant: &&PlantRow| {
            let (sowing, pod, _) = self.registry.road(**plant);
            of(sowing, pod)
        };
        let seedlings = &self.registry[at].seedlings;
        let numbered = seedlings.iter().filter(is_of).count();
        fact("numbered seedlings", Some(numbered.to_string()))
    }
}
