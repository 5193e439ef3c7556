//! A cross: how it was made, how far it came, what stands of it here.

use super::answer::{Fact, OffspringLine, PodLine, ShowReport};
use super::screen::{Screen, fact, stages};
use crate::analysis::list::PodLine as PodCounted;
use crate::analysis::show::{Muddled, Offspring, cross};
use crate::naming::recorded::TopOf;
use crate::observation::community_pot_left::community_pot_left;
use crate::observation::provenance::seasons_read;
use crate::observation::sexes::without_spare;
use crate::observation::standing::fate_words;
use crate::observation::tally::seeds_are_a_guess;
use crate::record::Pollination;
use crate::registry::CrossRow;
use crate::report::caution::{RankedCaution, Weight};
use crate::wording::{at_least, counted, days, listed, quoted};

impl Screen<'_, '_, '_> {
    /// A cross: how it was made, what came of it.
    pub fn cross(&self, at: CrossRow) -> ShowReport {
        let registry = self.registry;
        let seen = cross(self.context, at);
        let page = &registry[at].page;
        let counts = seen.counts;
        let sown = counts.sown.map_or_else(
            || "seeds sown not counted".to_owned(),
            |n| {
                let seeds = if n.count == 1 { "seed" } else { "seeds" };
                format!("{} {seeds} sown", at_least(n.count, n.is_minimum))
            },
        );
        let up = counts.germinated.map_or_else(
            || "germination not counted".to_owned(),
            |n| format!("{} germinated", at_least(n.count, n.is_minimum)),
        );
        let parents = seen.parents.map(|parents| self.parents(&parents));
        let doubts = self.names.doubts([TopOf::Cross(at)]);
        let mut cautions: Vec<RankedCaution> = RankedCaution::doubts(doubts).collect();
        let to_do = seen.sexes.chance_of_the_other().into_iter();
        let to_do = to_do.chain(without_spare(
            registry,
            self.context.lineage(),
            &registry[at],
            self.context.today,
        ));
        cautions.extend(to_do.map(|words| RankedCaution::new(Weight::Answer, words)));
        let seasons = seasons_read(registry, page);
        cautions.extend(seasons.map(|words| RankedCaution::new(Weight::General, words)));
        let seed = match page.sowings.is_empty() && counts.sown.is_none() {
            true if counts.numbered == 0 && page.community_pots.is_empty() => {
                "nothing sown yet".to_owned()
            }
            true => "no sowing on record".to_owned(),
            false => format!("{sown}, {up}"),
        };
        // Community pots may stand here where nothing is numbered.
        let here = match counts.numbered {
            0 => String::new(),
            _ => format!(", {} here, {} kept", counts.here, counts.kept),
        };
        let facts = [
            fact("parents", parents),
            fact("received as", page.received.as_deref().map(quoted)),
            fact("goal", page.goal.as_deref()),
            fact(
                "counts",
                Some(format!(
                    "{seed}, {} numbered{}{here}",
                    counts.numbered,
                    self.muddled_words(&seen.muddled)
                )),
            ),
            fact("sexes seen", seen.sexes.words()),
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
            let words = match &community_pot.fate {
                Some(fate) => format!("{}; {}", fate_words(fate), left.words_at_the_end()),
                None => left.words(),
            };
            facts.extend(fact(
                "community pot",
                Some(format!("{}: {words}", community_pot.code)),
            ));
        }
        ShowReport {
            id: page.code.to_owned(),
            what: "cross",
            name: self.name(TopOf::Cross(at)),
            facts,
            history: stages(&seen.history),
            pods: seen.pods.iter().map(|pod| self.pod_line(pod)).collect(),
            offspring: seen
                .offspring
                .iter()
                .map(|of| self.offspring_of_seedling(of))
                .collect(),
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
            Some(set) => format!(", {}", controls_set(set, flowers)),
            None => format!(
                ", {} not counted",
                counted(flowers as usize, "control", "controls")
            ),
        });
        let elsewhere = zone.spike_control_flowers.zip(zone.spike_control_set);
        let elsewhere = elsewhere.map(|(flowers, set)| {
            format!(", {} elsewhere on its spike", controls_set(set, flowers))
        });
        let spike = zone.spike.map(|spike| format!(", spike {spike}"));
        let on = Some(on.join(", "));
        let all: String = [on, spike, pollen, flowers, set, controls, elsewhere]
            .into_iter()
            .flatten()
            .collect();
        // A zone without a day begins with what is known of it.
        all.trim_start_matches(", ").to_owned()
    }

    /// One pod in a line.
    pub fn pod_line(&self, of: &PodCounted) -> PodLine {
        let record = &self.registry[of.pod];
        PodLine {
            id: format!("{}.{}", self.registry[of.pod.cross].page.code, record.code),
            zone: record.zone.map(str::to_owned),
            pollinated: days(of.pollinated),
            harvested: days(of.harvested),
            seeds: record.seeds,
            seeds_estimated: seeds_are_a_guess(&self.registry[of.pod.cross].page, record.code),
            numbered: of.numbered,
        }
    }

    /// How many of a cross's numbered seedlings may be of another: `, 2 of them perhaps of X20-02`; empty without any.
    fn muddled_words(&self, muddled: &Muddled) -> String {
        let codes = muddled.others.iter().map(|&of| self.registry[of].page.code);
        match muddled.seedlings {
            0 => String::new(),
            n => format!(", {n} of them perhaps of {}", listed(codes)),
        }
    }

    /// A cross that a seedling is a parent of, named with the seedling.
    fn offspring_of_seedling(&self, of: &Offspring) -> OffspringLine {
        let code = self.registry.code(of.parent);
        let line = self.offspring(of);
        OffspringLine {
            as_parent: format!("{code}, {}", line.as_parent),
            ..line
        }
    }
}

/// `0 of 6 controls set`; of one, whether it did.
fn controls_set(set: u32, flowers: u32) -> String {
    match (set, flowers) {
        (0, 1) => "1 control, which did not set".to_owned(),
        (1, 1) => "1 control, which set".to_owned(),
        _ => format!("{set} of {flowers} controls set"),
    }
}
