//! Evidence against a slow, obvious twin: random registries with every kind of parentage, each ancestor walked.
//!
//! The twin keeps its own model of what was written, knows the ladder as whole numbers and looks at nothing but that
//! model. Held in both directions: nothing weaker is left out of a sentence, and a line witnessed throughout says so.

use crate::lot::Lot;
use podbook::context::Context;
use podbook::diagnostic::Severity;
use podbook::evidence::{Evidence, Strength, Unit};
use podbook::record::Day;
use podbook::registry::{PlantRow, build};
use podbook::text::Sources;
use std::collections::{BTreeMap, BTreeSet};

const WITNESSED: usize = 0;
const CLAIMED: usize = 2;
const PROBABLE: usize = 3;
const MIXTURE: usize = 4;
const ONE_OF_SEVERAL: usize = 5;
const UNKNOWN: usize = 6;

const DIRECTION_LOST: &str = "which parent bore the seed is not known";

/// Confidence words with their step.
const CONFIDENCES: [(&str, usize); 5] = [
    ("witnessed", WITNESSED),
    ("tag", 1),
    ("claim", CLAIMED),
    ("one_of_several", ONE_OF_SEVERAL),
    ("unknown", UNKNOWN),
];

/// Labels of founders with the least step their own doubt allows.
const LABELS: [(&str, usize); 7] = [
    ("N. veitchii", WITNESSED),
    ("N. lowii", WITNESSED),
    ("N. cf. maxima", CLAIMED),
    ("N. veitchii (claimed)", CLAIMED),
    ("N. x ventrata", CLAIMED),
    ("N. maxima", WITNESSED),
    ("N. lowii x veitchii", WITNESSED),
];

/// Labels of founders that came of a cross without a record of it.
const OF_A_CROSS: [&str; 2] = ["N. x ventrata", "N. lowii x veitchii"];

/// A parent as the model has it.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
enum Who {
    Nobody,
    Founder(usize),
    Seedling(usize, usize),
    SomeOf(usize),
    Species,
}

struct Zone {
    spike: Option<usize>,
    day: Option<usize>,
    controls: Option<(u32, u32)>,
    /// What the envelope says, and of which plants.
    envelope: Option<(&'static str, Vec<Who>)>,
}

#[derive(Clone, PartialEq, Debug)]
enum From {
    Page,
    Pod(usize),
    OneOf(Vec<(usize, usize)>),
    Pot(usize),
}

struct Cross {
    kind: &'static str,
    confidence: usize,
    pairs: Vec<(Who, Who)>,
    zones: Vec<Zone>,
    /// Pod `k` is of zone `k`.
    pods: usize,
    /// Pods each pot may be of.
    pots: Vec<Vec<(usize, usize)>>,
    seedlings: Vec<From>,
}

struct World {
    founders: Vec<(usize, usize)>,
    crosses: Vec<Cross>,
    /// Seedlings that were mixed up, each with the other and the year; it stands on the record of the first of them.
    mix_ups: BTreeMap<(usize, usize), ((usize, usize), usize)>,
}

impl World {
    /// A random one; with `plain`, every cross in it was witnessed and no name is in doubt.
    fn drawn(lot: &mut Lot, crosses: usize, plain: bool) -> World {
        let founder = |lot: &mut Lot| match plain {
            // One in eight came of a cross, by its label.
            true => ([LABELS.len() - 1, 0, 0, 0, 0, 0, 0, 0][lot.below(8)], 1),
            false => (lot.below(LABELS.len()), lot.below(CONFIDENCES.len())),
        };
        let mut world = World {
            founders: (0..8).map(|_| founder(lot)).collect(),
            crosses: Vec::new(),
            mix_ups: BTreeMap::new(),
        };
        for at in 0..crosses {
            let mut cross = world.cross(lot, at, plain);
            if plain {
                // Zones of two crosses on one plant on the same thread would leave a doubt.
                cross.zones.iter_mut().for_each(|zone| zone.day = None);
            }
            world.crosses.push(cross);
        }
        for _ in 0..if plain { 0 } else { 2 * crosses } {
            world.mix_up(lot);
        }
        world
    }

    /// Mixes up two seedlings of one cross or of two, unless one of them was mixed up before.
    fn mix_up(&mut self, lot: &mut Lot) {
        let one = lot.below(self.crosses.len());
        let other = [one, lot.below(self.crosses.len())][lot.below(2)];
        let [one, other] = [one, other].map(|of| (of, lot.below(self.crosses[of].seedlings.len())));
        let year = [2019, 2021][lot.below(2)];
        let taken = |of: &(usize, usize)| self.mix_ups.contains_key(of);
        if one != other && !taken(&one) && !taken(&other) {
            self.mix_ups.insert(one, (other, year));
            self.mix_ups.insert(other, (one, year));
        }
    }

    fn who(&self, lot: &mut Lot, at: usize, plain: bool) -> Who {
        let draw = lot.below(20);
        if draw < 8 || at == 0 {
            return Who::Founder(lot.below(self.founders.len()));
        }
        let of = at - 1 - lot.below(at.min(6));
        match draw {
            18 if !plain => Who::SomeOf(of),
            19 if !plain => Who::Species,
            17 if !plain && lot.below(3) == 0 => Who::Nobody,
            _ => Who::Seedling(of, lot.below(self.crosses[of].seedlings.len())),
        }
    }

    fn cross(&self, lot: &mut Lot, at: usize, plain: bool) -> Cross {
        let kinds = [
            "known",
            "known",
            "known",
            "pollen_one_of",
            "pollen_mixed",
            "open",
            "pollen_unknown",
            "seed_one_of",
            "seed_unknown",
            "one_of_pairs",
            "direction_lost",
            "label_only",
            "unknown",
        ];
        let kind = if plain {
            "known"
        } else {
            kinds[lot.below(kinds.len())]
        };
        let several = 2 + lot.below(2);
        let (seed, pollen) = (self.who(lot, at, plain), self.who(lot, at, plain));
        let others: Vec<Who> = (0..several).map(|_| self.who(lot, at, plain)).collect();
        let more: Vec<Who> = (0..several).map(|_| self.who(lot, at, plain)).collect();
        let pairs = match kind {
            "pollen_one_of" | "pollen_mixed" => {
                others.iter().map(|&father| (seed, father)).collect()
            }
            "seed_one_of" => others.iter().map(|&mother| (mother, pollen)).collect(),
            "open" | "pollen_unknown" => vec![(seed, Who::Nobody)],
            "seed_unknown" => vec![(Who::Nobody, pollen)],
            "one_of_pairs" => others.into_iter().zip(more).collect(),
            "unknown" => vec![(Who::Nobody, Who::Nobody)],
            "label_only" => Vec::new(),
            _ => vec![(seed, pollen)],
        };
        let pods = 1 + lot.below(2);
        let mut zones: Vec<Zone> = (0..pods).map(|_| zone(lot, plain)).collect();
        zones
            .iter_mut()
            .for_each(|zone| zone.envelope = self.envelope(lot, at, (&pairs, plain)));
        let others = |lot: &mut Lot| -> Vec<(usize, usize)> {
            let mut of: Vec<(usize, usize)> = (0..1 + lot.below(3))
                .map(|_| match (at, lot.below(2)) {
                    (0, _) | (_, 0) => (at, lot.below(pods)),
                    _ => {
                        let of = lot.below(at);
                        (of, lot.below(self.crosses[of].pods))
                    }
                })
                .collect();
            of.dedup();
            of
        };
        let pots: Vec<Vec<(usize, usize)>> = match plain {
            true => Vec::new(),
            false => vec![others(lot)],
        };
        let seedlings = (0..12 + lot.below(12))
            .map(|_| match (plain, lot.below(6)) {
                (false, 0) => From::OneOf(others(lot)),
                (false, 1) => From::Pot(0),
                (_, 2) => From::Page,
                _ => From::Pod(lot.below(pods)),
            })
            .collect();
        Cross {
            kind,
            confidence: if plain {
                0
            } else {
                lot.below(CONFIDENCES.len())
                    .min(lot.below(CONFIDENCES.len()))
            },
            pairs,
            zones,
            pods,
            pots,
            seedlings,
        }
    }

    /// An envelope with a father of the page in it, where the page names one.
    fn envelope(
        &self,
        lot: &mut Lot,
        at: usize,
        (pairs, plain): (&[(Who, Who)], bool),
    ) -> Option<(&'static str, Vec<Who>)> {
        let fathers: Vec<Who> = pairs.iter().map(|pair| pair.1).collect();
        let fathers: Vec<Who> = fathers
            .into_iter()
            .filter(|of| *of != Who::Nobody)
            .collect();
        let says = match (lot.below(12), plain) {
            (0, false) => "one_of",
            (1, false) => "mixed",
            (2, false) => return Some(("unknown", Vec::new())),
            (3, _) => "plant",
            _ => return None,
        };
        let father = *fathers.get(lot.below(fathers.len().max(1)))?;
        let other = match lot.below(3) {
            0 => father,
            1 => fathers[lot.below(fathers.len())],
            _ => self.who(lot, at, true),
        };
        let all = [father, other]
            .into_iter()
            .take(if says == "plant" { 1 } else { 2 });
        Some((says, all.collect()))
    }

    fn text_of(&self, who: Who) -> String {
        match who {
            Who::Nobody => "\"?\"".to_owned(),
            Who::Founder(at) => format!("\"F{at}\""),
            Who::Seedling(cross, at) => format!("\"X{cross}-{at}\""),
            Who::SomeOf(cross) => format!("\"X{cross}\""),
            Who::Species => "\"rafflesiana\"".to_owned(),
        }
    }

    fn parents_text(&self, cross: &Cross) -> String {
        let seed = |at: usize| self.text_of(cross.pairs[at].0);
        let pollen = |at: usize| self.text_of(cross.pairs[at].1);
        let all = |of: &dyn Fn(usize) -> String| {
            (0..cross.pairs.len())
                .map(of)
                .collect::<Vec<_>>()
                .join(", ")
        };
        match cross.kind {
            "known" => format!("known(seed: {}, pollen: {})", seed(0), pollen(0)),
            "pollen_one_of" | "pollen_mixed" => {
                format!(
                    "{}(seed: {}, pollen: [{}])",
                    cross.kind,
                    seed(0),
                    all(&pollen)
                )
            }
            "open" | "pollen_unknown" => format!("{}(seed: {})", cross.kind, seed(0)),
            "seed_one_of" => format!("seed_one_of(seed: [{}], pollen: {})", all(&seed), pollen(0)),
            "seed_unknown" => format!("seed_unknown(pollen: {})", pollen(0)),
            "one_of_pairs" => {
                let pair = |at: usize| format!("(seed: {}, pollen: {})", seed(at), pollen(at));
                format!("one_of_pairs([{}])", all(&pair))
            }
            "direction_lost" => format!("direction_lost(({}, {}))", seed(0), pollen(0)),
            "label_only" => "label_only(\"N. lowii x veitchii\")".to_owned(),
            _ => "unknown".to_owned(),
        }
    }

    fn sources(&self) -> Sources {
        let mut sources = Sources::new();
        sources.add("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)");
        sources.add(
            "species.ron",
            "(species: [(epithet: \"veitchii\"), (epithet: \"lowii\"), (epithet: \"maxima\"), (epithet: \"rafflesiana\"), \
             (epithet: \"alata\"), (epithet: \"ventricosa\")], named_hybrids: [(epithet: \"ventrata\", parents: \
             [\"alata\", \"ventricosa\"], status: \"published\", expand: true, may_be_used: true)])",
        );
        let clones: Vec<String> = (self.founders.iter().enumerate())
            .map(|(at, &(label, confidence))| {
                let (label, confidence) = (LABELS[label].0, CONFIDENCES[confidence].0);
                format!("(code: \"F{at}\", received: \"{label}\", confidence: {confidence})")
            })
            .collect();
        sources.add("clones.ron", format!("(clones: [{}])", clones.join(", ")));
        sources.add(
            "pollen.ron",
            format!("(lots: [{}])", self.lots().join(", ")),
        );
        for (at, cross) in self.crosses.iter().enumerate() {
            sources.add(format!("crosses/X{at}.ron"), self.page(at, cross));
        }
        sources
    }

    fn lots(&self) -> Vec<String> {
        let mut lots = Vec::new();
        for (at, cross) in self.crosses.iter().enumerate() {
            for (zone, of) in cross.zones.iter().enumerate() {
                let Some((says, plants)) = &of.envelope else {
                    continue;
                };
                let plants: Vec<String> = plants.iter().map(|who| self.text_of(*who)).collect();
                let from = match *says {
                    "unknown" => "unknown".to_owned(),
                    "plant" => format!("plant({})", plants[0]),
                    several => format!("{several}([{}])", plants.join(", ")),
                };
                lots.push(format!("(code: \"E{at}Z{zone}\", from: {from})"));
            }
        }
        lots
    }

    fn page(&self, at: usize, cross: &Cross) -> String {
        let pod_codes = |pods: &[(usize, usize)]| {
            let code = |&(of, pod): &(usize, usize)| match of == at {
                true => format!("\"P{pod}\""),
                false => format!("\"X{of}.P{pod}\""),
            };
            pods.iter().map(code).collect::<Vec<_>>().join(", ")
        };
        let zones = cross.zones.iter().enumerate().map(|(zone, of)| {
            let spike = of.spike.map(|spike| format!(", spike: \"s{spike}\""));
            let on = of.day.map(|day| format!(", on: [\"2020-03-0{day}\"]"));
            let controls = of.controls.map(|(set, flowers)| match flowers {
                // Counted are the pods alone.
                0 => format!(", control_set: {set}"),
                _ => format!(", control_set: {set}, control_flowers: {flowers}"),
            });
            let envelope = of.envelope.as_ref();
            let envelope = envelope.map(|_| format!(", pollen: \"E{at}Z{zone}\""));
            let more = [spike, on, controls, envelope]
                .into_iter()
                .flatten()
                .collect::<String>();
            format!("(zone: \"Z{zone}\"{more})")
        });
        let pods = (0..cross.pods).map(|pod| format!("(code: \"P{pod}\", zone: \"Z{pod}\")"));
        let pots = cross.pots.iter().enumerate();
        let pots = pots.map(|(pot, of)| format!("(code: \"T{pot}\", one_of: [{}])", pod_codes(of)));
        let seedlings = cross.seedlings.iter().enumerate().map(|(number, from)| {
            let from = match from {
                From::Page => String::new(),
                From::Pod(pod) => format!(", pod: \"P{pod}\""),
                From::OneOf(pods) => format!(", one_of: [{}]", pod_codes(pods)),
                From::Pot(pot) => format!(", community_pot: \"T{pot}\""),
            };
            let mixed_up = self.mix_ups.get(&(at, number));
            let mixed_up = mixed_up.filter(|(other, _)| (at, number) < *other);
            let mixed_up = mixed_up.map(|((of, other), year)| {
                format!(", muddled: [(on: \"{year}-06-01\", with: [\"X{of}-{other}\"])]")
            });
            format!(
                "(number: \"{number}\"{from}{})",
                mixed_up.unwrap_or_default()
            )
        });
        let list = |lines: Vec<String>| lines.join(", ");
        format!(
            "(code: \"X{at}\", parents: {}, confidence: {}, pollinations: [{}], pods: [{}], community_pots: [{}], seedlings: [{}])",
            self.parents_text(cross),
            CONFIDENCES[cross.confidence].0,
            list(zones.collect()),
            list(pods.collect()),
            list(pots.collect()),
            list(seedlings.collect()),
        )
    }

    /// The pods a seedling may be of; none when nothing is recorded.
    fn pods_of(&self, cross: usize, seedling: usize) -> Vec<(usize, usize)> {
        match &self.crosses[cross].seedlings[seedling] {
            From::Page if self.crosses[cross].pods == 1 => vec![(cross, 0)],
            From::Page => Vec::new(),
            From::Pod(pod) => vec![(cross, *pod)],
            From::OneOf(pods) => pods.clone(),
            From::Pot(pot) => self.crosses[cross].pots[*pot].clone(),
        }
    }

    fn crosses_of(&self, cross: usize, pods: &[(usize, usize)]) -> BTreeSet<usize> {
        match pods.is_empty() {
            true => BTreeSet::from([cross]),
            false => pods.iter().map(|(of, _)| *of).collect(),
        }
    }

    /// Whether the record of a seedling, or that of its pot, names the pods that it may be of.
    fn says(&self, (cross, seedling): (usize, usize)) -> bool {
        let from = &self.crosses[cross].seedlings[seedling];
        matches!(from, From::OneOf(_) | From::Pot(_))
    }

    /// What a seedling was mixed up with, where that may be of another cross and no record says which pods it may be of.
    fn mixed_with_another(&self, (cross, seedling): (usize, usize)) -> Option<(usize, usize)> {
        let (other, _) = *self.mix_ups.get(&(cross, seedling))?;
        let crosses = self.crosses_of(other.0, &self.pods_of(other.0, other.1));
        let is_of_another = crosses.iter().any(|of| *of != cross);
        (is_of_another && !self.says((cross, seedling))).then_some(other)
    }

    /// The step of a seedling's own parents: mixed up with one that may be of another cross, it may be of that one too.
    fn own_of(&self, (cross, seedling): (usize, usize)) -> usize {
        let pods = self.pods_of(cross, seedling);
        let own = self.own(cross, &pods);
        let Some(other) = self.mixed_with_another((cross, seedling)) else {
            return own;
        };
        let of_other = self.pods_of(other.0, other.1);
        let mut crosses = self.crosses_of(cross, &pods);
        crosses.extend(self.crosses_of(other.0, &of_other));
        let several = [WITNESSED, ONE_OF_SEVERAL][usize::from(crosses.len() > 1)];
        own.max(self.own(other.0, &of_other)).max(several)
    }

    /// Whether a parent had been mixed up with a sibling, or may have been, when these zones were dusted in 2020.
    fn was_mixed_up(&self, who: Who, dated: bool) -> bool {
        let Who::Seedling(cross, seedling) = who else {
            return false;
        };
        let is_sure = !self.says((cross, seedling));
        let is_sure = is_sure && self.mixed_with_another((cross, seedling)).is_none();
        let mixed_up = self.mix_ups.get(&(cross, seedling)).filter(|_| is_sure);
        mixed_up.is_some_and(|(other, year)| other.0 == cross && (*year < 2020 || !dated))
    }

    /// The step of the parents of all that these pods may hold.
    fn own(&self, cross: usize, pods: &[(usize, usize)]) -> usize {
        let crosses = self.crosses_of(cross, pods);
        let mut step = if crosses.len() > 1 {
            ONE_OF_SEVERAL
        } else {
            WITNESSED
        };
        for of in crosses {
            let zones: Vec<usize> = match pods.is_empty() {
                true => (0..self.crosses[of].zones.len()).collect(),
                false => pods
                    .iter()
                    .filter(|(cross, _)| *cross == of)
                    .map(|(_, pod)| *pod)
                    .collect(),
            };
            step = step.max(self.page_step(of, &zones));
        }
        step
    }

    fn page_step(&self, at: usize, zones: &[usize]) -> usize {
        let cross = &self.crosses[at];
        let said = CONFIDENCES[cross.confidence].1;
        if cross.kind == "label_only" {
            return if said == ONE_OF_SEVERAL {
                said
            } else {
                CLAIMED
            };
        }
        let any_seed = cross.pairs.iter().any(|(seed, _)| *seed != Who::Nobody);
        let any_pollen = cross.pairs.iter().any(|(_, pollen)| *pollen != Who::Nobody);
        if !any_seed || !any_pollen {
            return UNKNOWN;
        }
        let distinct: BTreeSet<(Who, Who, usize)> = cross
            .pairs
            .iter()
            .enumerate()
            // Two parents known only by a cross or a species may be two plants.
            .map(|(at, &(seed, pollen))| {
                let unseen = |who| matches!(who, Who::SomeOf(_) | Who::Species);
                let of_each = match cross.kind {
                    "pollen_one_of" | "pollen_mixed" => unseen(pollen),
                    "seed_one_of" => unseen(seed),
                    _ => unseen(seed) || unseen(pollen),
                };
                (seed, pollen, if of_each { at } else { 0 })
            })
            .collect();
        let several = distinct.len() > 1;
        let some = |who: Who| matches!(who, Who::SomeOf(_));
        let mut step = said;
        if several && cross.kind == "pollen_mixed" {
            step = step.max(MIXTURE);
        } else if several
            || cross
                .pairs
                .iter()
                .any(|(seed, pollen)| some(*seed) || some(*pollen))
        {
            step = step.max(ONE_OF_SEVERAL);
        }
        if cross
            .pairs
            .iter()
            .any(|(seed, pollen)| some(*seed) || some(*pollen))
        {
            step = step.max(ONE_OF_SEVERAL);
        }
        let dated = zones.iter().all(|zone| cross.zones[*zone].day.is_some());
        let mut parents = cross.pairs.iter().flat_map(|pair| [pair.0, pair.1]);
        if parents.any(|who| self.was_mixed_up(who, dated)) {
            step = step.max(ONE_OF_SEVERAL);
        }
        let by_envelope = zones.iter().map(|zone| self.envelope_step(at, *zone));
        step = step.max(by_envelope.max().unwrap_or(WITNESSED));
        let probable = |zone: &usize| self.stray(at, *zone) || self.shares_its_thread(at, *zone);
        if zones.iter().any(probable) {
            step = step.max(PROBABLE);
        }
        step
    }

    /// No father is better known than by the envelope, unless the page says the same of all its plants.
    fn envelope_step(&self, at: usize, zone: usize) -> usize {
        let cross = &self.crosses[at];
        let Some((says, plants)) = &cross.zones[zone].envelope else {
            return WITNESSED;
        };
        let of_pollen = cross.pairs.iter().map(|pair| pair.1);
        let of_seed = cross.pairs.iter().map(|pair| pair.0);
        let of_seed = of_seed.filter(|_| cross.kind == "direction_lost");
        let fathers: BTreeSet<Who> = of_pollen.chain(of_seed).collect();
        let may_be = |father: &Who, plant: Who| match (*father, plant) {
            (Who::Species, _) | (_, Who::Species) => true,
            (Who::SomeOf(cross), Who::Seedling(of, _)) => cross == of,
            (Who::Seedling(of, _), Who::SomeOf(cross)) => cross == of,
            (father, plant) => father == plant,
        };
        let named = |plant: &Who| fathers.iter().any(|father| may_be(father, *plant));
        let all_named = plants.iter().all(named);
        let is_several = plants.first() != plants.last();
        match *says {
            "unknown" => UNKNOWN,
            "one_of" if is_several && !(all_named && fathers.len() > 1) => ONE_OF_SEVERAL,
            "mixed" if is_several && !(all_named && cross.kind == "pollen_mixed") => MIXTURE,
            _ => WITNESSED,
        }
    }

    /// Whether a zone of another cross has its name on the same plant; all zones here are of the same month.
    fn shares_its_thread(&self, at: usize, zone: usize) -> bool {
        let mother = |of: &Cross| {
            let seeds: BTreeSet<Who> = of.pairs.iter().map(|(seed, _)| *seed).collect();
            let one = seeds.first().copied().filter(|_| seeds.len() == 1)?;
            let is_plant = !matches!(one, Who::SomeOf(_) | Who::Species | Who::Nobody);
            (is_plant && of.kind != "direction_lost").then_some(one)
        };
        let unseen = |(_, pollen): &(Who, Who)| matches!(pollen, Who::SomeOf(_) | Who::Species);
        let here = &self.crosses[at];
        self.crosses.iter().enumerate().any(|(other_at, other)| {
            let same_plant = mother(here).is_some() && mother(here) == mother(other);
            let same_parents = here.pairs == other.pairs && !here.pairs.iter().any(unseen);
            let Some(there) = other.zones.get(zone) else {
                return false;
            };
            let one_spike = match (here.zones[zone].spike, there.spike) {
                (Some(one), Some(another)) => one == another,
                _ => true,
            };
            let dated = here.zones[zone].day.is_some() && there.day.is_some();
            other_at != at && same_plant && !same_parents && one_spike && dated
        })
    }

    /// Whether any control of the spike of a zone set.
    fn stray(&self, at: usize, zone: usize) -> bool {
        let here = &self.crosses[at].zones[zone];
        let mut found = false;
        for (other_at, other) in self.crosses.iter().enumerate() {
            for (there_at, there) in other.zones.iter().enumerate() {
                let Some((set, _)) = there.controls else {
                    continue;
                };
                let itself = (other_at, there_at) == (at, zone);
                let same_plant = self
                    .mothers(at)
                    .iter()
                    .any(|plant| self.mothers(other_at).contains(plant));
                let same_spike = match (here.spike, there.spike) {
                    (Some(one), Some(another)) => one == another,
                    _ => here.day.is_none() || there.day.is_none() || here.day == there.day,
                };
                found |= set > 0 && (itself || (same_plant && same_spike));
            }
        }
        found
    }

    /// Plants that may have borne a cross; of one never seen, the cross and the place where it is named.
    fn mothers(&self, at: usize) -> BTreeSet<(Who, usize, usize)> {
        let cross = &self.crosses[at];
        let mothers = cross
            .pairs
            .iter()
            .enumerate()
            .map(|(place, (seed, _))| match seed {
                Who::SomeOf(_) | Who::Species => (*seed, at + 1, place),
                seed => (*seed, 0, 0),
            });
        mothers.filter(|(seed, ..)| *seed != Who::Nobody).collect()
    }

    /// The step of every ancestor of a seedling that came of a cross, and the steps of all founders' names; a founder that
    /// came of a cross without a record is an ancestor of the step `None`.
    fn behind(
        &self,
        cross: usize,
        pods: &[(usize, usize)],
    ) -> (Vec<Option<usize>>, BTreeSet<usize>) {
        let (mut crosses, mut names) = (Vec::new(), BTreeSet::new());
        let mut seen = BTreeSet::new();
        let mut todo = vec![(cross, pods.to_vec())];
        while let Some((cross, pods)) = todo.pop() {
            for of in self.crosses_of(cross, &pods) {
                let page = &self.crosses[of];
                let said = CONFIDENCES[page.confidence].1;
                if page.kind == "label_only" {
                    names.insert(if said == ONE_OF_SEVERAL {
                        said
                    } else {
                        CLAIMED
                    });
                }
                for who in page
                    .pairs
                    .iter()
                    .flat_map(|(seed, pollen)| [*seed, *pollen])
                {
                    match who {
                        Who::Nobody => {}
                        Who::Species => {
                            names.insert(said.max(CLAIMED));
                        }
                        Who::Founder(at) => {
                            let (label, confidence) = self.founders[at];
                            if OF_A_CROSS.contains(&LABELS[label].0) {
                                crosses.push(None);
                            }
                            names.insert(CONFIDENCES[confidence].1.max(LABELS[label].1));
                        }
                        Who::Seedling(of, at) => {
                            if seen.insert((of, at)) {
                                let pods = self.pods_of(of, at);
                                crosses.push(Some(self.own_of((of, at))));
                                todo.push((of, pods));
                            }
                        }
                        Who::SomeOf(of) => {
                            if seen.insert((of, usize::MAX)) {
                                crosses.push(Some(self.own(of, &[])));
                                todo.push((of, Vec::new()));
                            }
                        }
                    }
                }
            }
        }
        (crosses, names)
    }
}

fn zone(lot: &mut Lot, plain: bool) -> Zone {
    Zone {
        spike: (lot.below(2) == 0).then(|| lot.below(3)),
        day: (lot.below(4) > 0).then(|| 1 + lot.below(9)),
        controls: match (plain, lot.below(5)) {
            (_, 0) => Some((0, 5)),
            (false, 1) => Some((1 + lot.below(3) as u32, 5 * lot.below(2) as u32)),
            _ => None,
        },
        envelope: None,
    }
}

/// Words one of which stands in what is said of a step.
fn words_of(step: usize) -> &'static [&'static str] {
    match step {
        0 => &["witnessed"],
        1 => &["on the tag", "by its tag", "by their tags"],
        2 => &["claim", "provisional", "hybrid name alone"],
        3 => &["probable"],
        4 => &["mixed"],
        5 => &["one of", "one seedling of"],
        _ => &[
            "not known",
            "unknown",
            "no basis recorded",
            "not recorded",
            "not readable",
        ],
    }
}

fn says(text: &str, step: usize) -> bool {
    // At the beginning of a word: "none of 5 control flowers" is not "one of" several.
    let begins = |at: usize| !text[..at].ends_with(char::is_alphanumeric);
    let said = |word: &str| text.match_indices(word).any(|(at, _)| begins(at));
    words_of(step).iter().any(|word| said(word))
}

/// All steps, the strongest first.
const STRENGTHS: [Strength; 7] = [
    Strength::Witnessed,
    Strength::OnTag,
    Strength::Claimed,
    Strength::Probable,
    Strength::Mixture,
    Strength::OneOfSeveral,
    Strength::Unknown,
];

fn step(strength: Strength) -> usize {
    STRENGTHS.iter().position(|one| *one == strength).unwrap()
}

/// The half of a sentence that begins with these words.
fn half<'s>(sentence: &'s str, begins: &str) -> Option<&'s str> {
    let from = sentence.find(begins)?;
    let rest = &sentence[from..];
    Some(&rest[..rest.find(';').unwrap_or(rest.len())])
}

fn holds(world: &World, evidence: &Evidence, (cross, seedling): (usize, usize), plant: PlantRow) {
    let unit = Unit::Plant(plant);
    let pods = world.pods_of(cross, seedling);
    let own = world.own_of((cross, seedling));
    let (behind, names) = world.behind(cross, &pods);
    let sentence = evidence.sentence(unit);
    let place = format!("X{cross}-{seedling}: {sentence}");
    assert_eq!(
        step(evidence.statement(unit).unwrap().strength()),
        own,
        "own, {place}"
    );
    let weakest = behind.iter().copied().flatten().max();
    assert_eq!(
        evidence.further(unit).map(|of| step(of.strength)),
        weakest,
        "further back, {place}"
    );
    let told: BTreeSet<usize> = evidence
        .founders(unit)
        .iter()
        .map(|of| step(of.strength))
        .collect();
    assert_eq!(told, names, "names, {place}");
    let worst_name = evidence.weakest_name(unit).map(|of| step(of.strength));
    assert_eq!(worst_name, names.last().copied(), "worst name, {place}");

    let (about_crosses, about_names) = match sentence.find("; founder") {
        Some(at) => sentence.split_at(at),
        None => (sentence.as_str(), ""),
    };
    assert!(says(about_crosses, own), "own step is said: {place}");
    let further = half(&sentence, "further back, ");
    match weakest.filter(|&weakest| weakest > own) {
        Some(weakest) => assert!(
            further.is_some_and(|half| says(half, weakest)),
            "weaker is said: {place}"
        ),
        None => assert_eq!(further, None, "nothing weaker is there: {place}"),
    }
    for &name in &names {
        assert!(
            says(about_names, name),
            "name of step {name} is said: {place}"
        );
    }
    let throughout =
        own == WITNESSED && weakest.is_some() && behind.iter().all(|&of| of == Some(WITNESSED));
    let says_so = about_crosses.contains("every cross further back witnessed too");
    assert_eq!(says_so, throughout, "witnessed throughout: {place}");
    if own == WITNESSED {
        let weaker = (1..=UNKNOWN).filter(|&step| step != PROBABLE);
        // The direction is no step of the ladder; it is held by itself.
        let own_half = about_crosses.split("; further back").next().unwrap();
        let own_half = own_half.replace(DIRECTION_LOST, "");
        weaker.for_each(|step| assert!(!says(&own_half, step), "nothing weaker is said: {place}"));
        assert!(own_half.starts_with("parents witnessed"), "{place}");
    }
    let is_lost = |of: usize| world.crosses[of].kind == "direction_lost";
    let mixed_up = world.mixed_with_another((cross, seedling)).into_iter();
    let mixed_up = mixed_up.flat_map(|of| world.crosses_of(of.0, &world.pods_of(of.0, of.1)));
    let mut may_be = world.crosses_of(cross, &pods).into_iter().chain(mixed_up);
    let lost = may_be.any(is_lost);
    assert_eq!(
        about_crosses.contains(DIRECTION_LOST),
        lost,
        "direction, {place}"
    );
    let path = evidence.path(unit);
    assert_eq!(
        path.last().copied(),
        evidence.further(unit).map(|of| of.holder),
        "{place}"
    );
}

fn holds_for_all(world: &World) -> (usize, BTreeMap<usize, usize>) {
    let sources = world.sources();
    let (registry, findings) = build(&sources);
    assert_eq!(
        findings.count(Severity::Fault),
        0,
        "the twin writes sound registries"
    );
    let context = Context::of(&registry, Day::new(2030, 1, 1).expect("a day"));
    let evidence = context.evidence();
    let (mut plants, mut steps) = (0, BTreeMap::new());
    for (at, cross) in world.crosses.iter().enumerate() {
        for seedling in 0..cross.seedlings.len() {
            let plant = registry
                .plant(&format!("X{at}-{seedling}"))
                .expect("it was written");
            holds(world, evidence, (at, seedling), plant);
            plants += 1;
            let own = world.own_of((at, seedling));
            *steps.entry(own).or_default() += 1;
        }
    }
    (plants, steps)
}

#[test]
fn nothing_weaker_is_left_out_of_the_sentence() {
    let mut lot = Lot(20_260_701);
    let (mut plants, mut steps) = (0, BTreeMap::<usize, usize>::new());
    for _ in 0..60 {
        let world = World::drawn(&mut lot, 12, false);
        let (more, of) = holds_for_all(&world);
        plants += more;
        of.into_iter()
            .for_each(|(step, count)| *steps.entry(step).or_default() += count);
    }
    assert!(plants > 10_000, "{plants} plants");
    assert_eq!(
        steps.len(),
        STRENGTHS.len(),
        "every step was met: {steps:?}"
    );
}

#[test]
fn a_line_witnessed_throughout_says_exactly_that() {
    let mut lot = Lot(7);
    for _ in 0..6 {
        let world = World::drawn(&mut lot, 40, true);
        let (_, steps) = holds_for_all(&world);
        assert_eq!(steps.keys().collect::<Vec<_>>(), [&WITNESSED]);
    }
}
