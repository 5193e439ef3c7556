//! A cross: how it was made, how far it came, what stands of it here.

use super::answer::{OffspringLine, PodLine, ShowReport};
use super::screen::{Screen, stages};
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
use crate::report::fact::{Fact, fact};
use crate::report::plants::typed;
use crate::wording::{at_least, counted, days, joined, led_by, listed, quoted};

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
        let muddled = self.muddled_words(&seen.muddled);
        let counts = format!("{seed}, {} numbered{muddled}{here}", counts.numbered);
        let facts = [
            fact("parents", parents),
            fact("received as", page.received.as_deref().map(quoted)),
            fact("goal", page.goal.as_deref()),
            fact("counts", Some(counts)),
            fact("sexes seen", seen.sexes.words()),
            fact("note", page.note.as_deref()),
        ];
        let mut facts: Vec<Fact> = facts.into_iter().flatten().collect();
        let zones = page.pollinations.iter();
        facts.extend(zones.filter_map(|zone| {
            let words = self.zone_words(zone);
            fact("zone", Some(format!("{}: {words}", zone.zone)))
        }));
        for (row, community_pot) in registry.community_pots(at) {
            let left = community_pot_left(registry, row, self.context.today);
            let words = match &community_pot.fate {
                Some(fate) => format!("{}; {}", fate_words(fate), left.words_at_the_end()),
                None => left.words(),
            };
            let words = format!("{}: {words}", community_pot.code);
            facts.extend(fact("community pot", Some(words)));
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
        let on = zone.on.iter().map(|on| typed(self.registry, on));
        let spike = led_by(", spike ", zone.spike);
        let pollen = led_by(", pollen lot ", zone.pollen);
        let flowers = zone
            .flowers
            .map(|n| counted(n as usize, "flower", "flowers"));
        let flowers = led_by(", ", flowers);
        let set = zone.set.map(|n| format!("{n} set"));
        let controls = match (zone.control_flowers, zone.control_set) {
            (Some(flowers), Some(set)) => Some(controls_set(set, flowers)),
            (Some(flowers), None) => {
                let controls = counted(flowers as usize, "control", "controls");
                Some(format!("{controls} not counted"))
            }
            (None, Some(set)) => Some(format!("{set} set on controls")),
            (None, None) => None,
        };
        let elsewhere = zone.spike_control_flowers.zip(zone.spike_control_set);
        let elsewhere = elsewhere.map(|(flowers, set)| controls_set(set, flowers));
        let elsewhere = elsewhere.map(|of| format!("{of} elsewhere on its spike"));
        let counts = [set, controls, elsewhere].map(|words| led_by(", ", words));
        let all = format!(
            "{}{spike}{pollen}{flowers}{}",
            joined(on, ", "),
            counts.concat()
        );
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
