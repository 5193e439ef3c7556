//! A cross: how it was made, how far it came, what stands of it here.

use super::answer::{Fact, OffspringLine, PodLine, ShowReport};
use super::screen::{Screen, fact};
use crate::evidence::Unit;
use crate::lineage::PlantRow;
use crate::naming::recorded::TopOf;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::presence::{Presence, presence};
use crate::observation::provenance::{seasons_read, stages};
use crate::observation::sexes::{sexes, without_spare};
use crate::observation::tally::{germinated, seeds_sown};
use crate::record::Pollination;
use crate::registry::{CrossRow, PodRow, SowingRow};
use crate::report::caution::{RankedCaution, Weight};
use crate::wording::{counted, days, listed, quoted};

impl Screen<'_, '_, '_> {
    /// A cross: how it was made, what came of it.
    pub fn cross(&self, at: CrossRow) -> ShowReport {
        let registry = self.registry;
        let cross = &registry[at];
        let page = &cross.page;
        let here = cross
            .seedlings
            .iter()
            .filter(|&&p| presence(registry, p, self.context.today) == Presence::Here)
            .count();
        let kept = cross
            .seedlings
            .iter()
            .filter(|&&p| registry.is_kept(p))
            .count();
        let sown = seeds_sown(page).map_or_else(
            || "seeds sown not counted".to_owned(),
            |n| format!("{n} seeds sown"),
        );
        let up = germinated(page).map_or_else(
            || "germination not counted".to_owned(),
            |n| format!("{n} germinated"),
        );
        let parents = cross
            .seedlings
            .first()
            .and_then(|&plant| self.parents(plant));
        let sexes = sexes(registry, cross, self.context.today);
        let doubts = self.names.doubts([TopOf::Cross(at)]);
        let mut cautions: Vec<RankedCaution> = RankedCaution::doubts(doubts).collect();
        let to_do = sexes.chance_of_the_other().into_iter();
        let to_do = to_do.chain(without_spare(
            registry,
            self.context.lineage(),
            cross,
            self.context.today,
        ));
        cautions.extend(to_do.map(|words| RankedCaution::new(Weight::Answer, words)));
        let seasons = seasons_read(registry, &cross.page);
        cautions.extend(seasons.map(|words| RankedCaution::new(Weight::General, words)));
        let facts = [
            fact("parents", parents),
            fact("received as", page.received.as_deref().map(quoted)),
            fact("goal", page.goal.as_deref()),
            fact(
                "counts",
                Some(format!(
                    "{sown}, {up}, {} numbered{}, {here} here, {kept} kept",
                    cross.seedlings.len(),
                    self.muddled_words(at)
                )),
            ),
            fact("sexes seen", sexes.words()),
            fact("note", page.note.as_deref()),
        ];
        let mut facts: Vec<Fact> = facts.into_iter().flatten().collect();
        let zones = page.pollinations.iter();
        facts.extend(zones.filter_map(|zone| {
            fact(
                "zone",
                Some(format!("{}: {}", zone.zone, self.zone_words(zone))),
            )
        }));
        for (row, community_pot) in registry.community_pots(at) {
            let left = community_pot_left(registry, row, self.context.today);
            facts.extend(fact(
                "community pot",
                Some(format!("{}: {}", community_pot.code, left.words())),
            ));
        }
        ShowReport {
            id: page.code.to_owned(),
            what: "cross",
            name: self.name(TopOf::Cross(at)),
            facts,
            history: self.stages(
                stages(
                    registry,
                    at,
                    (page.sowings.len() == 1).then_some(SowingRow { cross: at, at: 0 }),
                    (page.pods.len() == 1).then_some(PodRow { cross: at, at: 0 }),
                ),
                None,
            ),
            pods: registry
                .pods(at)
                .map(|(pod, _)| self.pod_line(pod))
                .collect(),
            offspring: self.offspring_of_any(&cross.seedlings),
            cautions,
            ..ShowReport::default()
        }
    }

    /// When, with which pollen, how many flowers, how many set.
    pub fn zone_words(&self, zone: &Pollination) -> String {
        let on: Vec<String> = zone.on.iter().map(|on| self.typed(on)).collect();
        let pollen = zone.pollen.map(|lot| format!(", pollen lot {lot}"));
        let flowers = zone
            .flowers
            .map(|n| format!(", {}", counted(n as usize, "flower", "flowers")));
        let set = zone.set.map(|n| format!(", {n} set"));
        let controls = zone.control_flowers.map(|flowers| match zone.control_set {
            Some(set) => format!(", {set} of {flowers} controls set"),
            None => format!(", {flowers} controls not counted"),
        });
        let spike = zone.spike.map(|spike| format!(", spike {spike}"));
        [Some(on.join(", ")), spike, pollen, flowers, set, controls]
            .into_iter()
            .flatten()
            .collect()
    }

    /// One pod in a line.
    pub fn pod_line(&self, pod: PodRow) -> PodLine {
        let cross = &self.registry[pod.cross];
        let record = &self.registry[pod];
        let road = stages(self.registry, pod.cross, None, Some(pod));
        let of = |plant: &&PlantRow| self.registry.road(**plant).1 == Some(pod);
        PodLine {
            id: format!("{}.{}", cross.page.code, record.code),
            zone: record.zone.map(str::to_owned),
            pollinated: days(road.pollinated),
            harvested: days(road.harvested),
            seeds: record.seeds,
            numbered: cross.seedlings.iter().filter(of).count(),
        }
    }

    /// How many of a cross's numbered seedlings may be of another: `, 2 of them perhaps of X20-02`; empty without any.
    fn muddled_words(&self, at: CrossRow) -> String {
        let seedlings = &self.registry[at].seedlings;
        let crosses = |plant: &PlantRow| {
            let own = self.context.evidence().statement(Unit::Plant(*plant));
            own.map_or(Vec::new(), |own| own.crosses)
        };
        let several: Vec<Vec<CrossRow>> = seedlings.iter().map(crosses).collect();
        let several: Vec<Vec<CrossRow>> = several.into_iter().filter(|of| of.len() > 1).collect();
        let mut others: Vec<CrossRow> = several.iter().flatten().copied().collect();
        others.retain(|&of| of != at);
        others.sort_unstable();
        others.dedup();
        let codes = others.iter().map(|&of| self.registry[of].page.code);
        let codes: Vec<&str> = codes.collect();
        match several.len() {
            0 => String::new(),
            n => format!(", {n} of them perhaps of {}", listed(&codes)),
        }
    }

    /// Crosses that any of these plants is a parent of, each told with the plant.
    fn offspring_of_any(&self, plants: &[PlantRow]) -> Vec<OffspringLine> {
        let lines = plants.iter().flat_map(|&plant| {
            let code = self.registry.code(plant);
            let lines = self.offspring(plant).into_iter();
            lines.map(move |line| OffspringLine {
                as_parent: format!("{code}, {}", line.as_parent),
                ..line
            })
        });
        lines.collect()
    }
}
