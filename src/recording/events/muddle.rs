//! Plants or community pots mixed up: each becomes one of the several, until it is known again.
//!
//! Plants of different pods may be of any of those pods from then on, which `one_of` says to every answer. Plants of one
//! pod keep their parents; only what was read of them is in doubt, which the mix-up says.

use super::in_between::{InBetween, recorded_in_between, recorded_of_pot, where_it_stands};
use crate::recording::codes::next_part;
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::page::{At, FieldChange, Within};
use crate::recording::plants::{here, kind_words, not_before};
use crate::recording::recorded::{Recorded, Tag, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, day, words};
use crate::recording::written::{RonRecord, tally, text, texts};
use crate::registry::{CrossRow, MixUp, PlantOrRamet, PlantRow, PotRow, Registry, Target};
use crate::wording::{at_date, listed};
use std::collections::BTreeSet;

/// A mix-up, or its end.
#[derive(Clone, Debug, Default)]
pub struct Muddle {
    /// Codes of the seedlings, or of the community pots.
    pub codes: Vec<String>,
    /// How it happened.
    pub why: Option<String>,
    /// Only so many seedlings of the community pots are mixed up.
    pub rows: Option<u32>,
    /// Whether it is known again which is which.
    pub settled: bool,
    /// Whether each tag was on its own plant all the time.
    pub tags_right: bool,
    /// Whether the tags were on each other's plants.
    pub tags_swapped: bool,
    /// Whether what was recorded in between stands under the right codes by now, though the tags were swapped.
    pub moved: bool,
    /// When; today if not given.
    pub on: Option<String>,
}

/// A code with those that it is still mixed up with.
type StillMixedUp = (String, Vec<String>);

/// A pod by its cross and its code, `X21-03.P1`.
type PodCode = (CrossRow, String);

impl Muddle {
    /// Writes the doubt, or takes it away.
    ///
    /// # Errors
    /// If fewer than two are named, kinds are mixed, a founder is named, or pods are not on record.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        // Written as on record, without the blanks around them: `X1-2` and `X1-2 ` are one plant.
        let codes = self.codes.iter().map(|code| code.trim().to_owned());
        let meant = Muddle {
            codes: codes.collect(),
            ..self.clone()
        };
        meant.written(draft)
    }

    fn written(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let (mut plants, mut pots) = (Vec::new(), Vec::new());
        for code in &self.codes {
            match registry.target(code) {
                Some(Target::Plant(plant)) if registry.cross_of(plant).is_some() => {
                    plants.push(plant)
                }
                Some(Target::Plant(_)) => {
                    return Err(Slip::wrong_kind(
                        code.clone(),
                        "a founder",
                        words!(
                            "seedlings or community pots; for a founder in doubt record an opinion{}";
                            Words::or(": `podbook opinion`", " at the computer")
                        ),
                    ));
                }
                Some(Target::CommunityPot(pot)) => pots.push(pot),
                Some(other) => {
                    return Err(Slip::wrong_kind(
                        code.clone(),
                        kind_words(other),
                        "seedlings such as X22-02-3, or community pots such as X23-02.T1",
                    ));
                }
                None => {
                    let near = registry.near(code);
                    return Err(Slip::unknown(
                        registry,
                        "plant or community pot",
                        code,
                        near,
                    ));
                }
            }
        }
        let distinct: BTreeSet<&String> = self.codes.iter().collect();
        if distinct.len() < self.codes.len() || (self.codes.len() < 2 && !self.settled) {
            return Err(Slip::missing(
                "the other one it was mixed up with",
                "at least two different codes, such as X22-02-3 X22-02-4",
            ));
        }
        let mut still = Vec::new();
        let remarks = match self.settled {
            true => self.in_between(registry, (&plants, &pots), &on)?,
            false => Vec::new(),
        };
        match (plants.is_empty(), pots.is_empty()) {
            (false, true) if self.settled => still = self.settle_plants(draft, &plants, &on)?,
            (false, true) => {
                for &plant in &plants {
                    not_before(registry, PlantOrRamet::whole(plant), &on)?;
                }
                self.mix_plants(draft, &plants, &on)?;
            }
            (true, false) if self.settled => still = self.settle_pots(draft, &pots, &on)?,
            (true, false) => return self.mix_pots(draft, &pots, &on),
            _ => {
                return Err(Slip::contradicts(
                    "plants and community pots were named together",
                    "a mix-up is of one kind",
                    "name only plants, or only community pots",
                ));
            }
        }
        draft.second_form()?;
        let left = self.left_open(registry, muddles(registry, &plants, &pots), &on);
        let mut told = self.told(on, still, Vec::new());
        told.remarks = remarks.into_iter().map(Words::from).collect();
        told.remarks.extend(left.map(Words::from));
        Ok(told)
    }

    /// What is to be said of what was recorded since the plants were mixed up.
    ///
    /// # Errors
    /// If something was, and it is not said that the tags were right; if the day is before that of the mix-up.
    fn in_between(
        &self,
        registry: &Registry,
        (plants, pots): (&[PlantRow], &[PotRow]),
        on: &Dated,
    ) -> Result<Vec<String>, Slip> {
        for (code, muddled) in self.codes.iter().zip(muddles(registry, plants, pots)) {
            let mut meant = muddled.iter().filter(|of| self.settles(of));
            if let Some(later) = meant.find(|of| on.when.surely_before(registry.when(of.on))) {
                return Err(Slip::contradicts(
                    format!("{code} was known apart again {}", at_date(&on.text)),
                    format!("it was mixed up {}", at_date(later.on)),
                    "give the day on which it was settled with --on",
                ));
            }
        }
        let since = |muddled: &[MixUp]| {
            let meant = muddled.iter().filter(|of| self.settles(of));
            let since = meant.map(|of| registry.when(of.on));
            since.min_by_key(|since| since.first)
        };
        let of_plants = plants.iter().filter_map(|&plant| {
            let since = since(registry.mix_ups(plant))?;
            recorded_in_between(registry, plant, [since, on.when])
        });
        let of_pots = pots.iter().filter_map(|&pot| {
            let since = since(&of_pot(registry, pot))?;
            recorded_of_pot(registry, pot, [since, on.when])
        });
        let found: Vec<InBetween> = of_plants.chain(of_pots).collect();
        let recorded: Vec<&str> = found.iter().map(|of| &*of.words).collect();
        let codes = self.codes.join(" ");
        if recorded.is_empty() {
            let swapped = self.tags_swapped && plants.len() == 2;
            let tags = swapped.then(|| "Put the tag of each on the other".to_owned());
            return Ok(tags.into_iter().collect());
        }
        let recorded = recorded.join("; ");
        if self.moved {
            return Ok(vec![
                format!("Recorded in between, as it stands now: {recorded}"),
                "Put the tag of each on the other".to_owned(),
            ]);
        }
        if self.tags_right {
            let right = format!(
                "Recorded in between, and kept as it stands since the tags were right: {recorded}"
            );
            return Ok(vec![right]);
        }
        let help = match self.tags_swapped {
            true => format!(
                "podbook does not move it: write each of these by hand where it belongs, under the other code ({}); then: podbook muddle {codes} --settled --tags-swapped --moved",
                where_it_stands(&found)
            ),
            false => "whose that is depends on the tags: add --tags-right if each was on its own plant, --tags-swapped if they were on each other's".to_owned(),
        };
        Err(Slip::contradicts(
            match &self.codes[..] {
                [one] => format!("{one} was to be settled"),
                several => format!("{} were to be settled", listed(several)),
            },
            format!("this was recorded in between: {recorded}"),
            help,
        ))
    }

    /// Whether a mix-up of one of the codes is open and meant: one with others that are named, or any where none is.
    fn settles(&self, muddle: &MixUp) -> bool {
        let named = |other: &String| self.codes.contains(other);
        let meant = self.codes.len() == 1 || muddle.with.iter().any(named);
        muddle.settled.is_none() && meant
    }

    /// What is to be said of the others of a mix-up that are on record as mixed up still; nothing where none was settled.
    fn left_open<'r>(
        &self,
        registry: &Registry,
        muddled: impl Iterator<Item = Vec<MixUp<'r>>>,
        on: &Dated,
    ) -> Option<String> {
        let meant = muddled
            .flatten()
            .filter(|of| self.settled && self.settles(of));
        let with: BTreeSet<String> = meant.flat_map(|of| of.with).collect();
        let is_named = |code: &str| self.codes.iter().any(|named| named == code);
        let open = |code: &str| -> Vec<String> {
            let all = muddles_of(registry, code).into_iter();
            let open = all.filter(|of| of.settled.is_none());
            open.flat_map(|of| of.with).collect()
        };
        let left = with.iter().map(String::as_str);
        let left: Vec<&str> = left
            .filter(|code| !is_named(code) && !open(code).is_empty())
            .collect();
        let settle = format!(
            "podbook muddle {} --settled --on \"{}\"",
            left.join(" "),
            on.text
        );
        match left[..] {
            [] => None,
            [last]
                if open(last)
                    .iter()
                    .all(|of| is_named(of) || with.contains(of)) =>
            {
                Some(format!(
                    "{last} is on record as mixed up still, and is known as well, since all the others are; to settle it: {settle}"
                ))
            }
            [one] => Some(format!(
                "{one} is still mixed up; when it is known which it is: {settle}"
            )),
            _ => Some(format!(
                "{} are still mixed up; when they are known apart: {settle}",
                listed(&left)
            )),
        }
    }

    fn told(&self, on: Dated, still: Vec<StillMixedUp>, tags: Vec<Tag>) -> Recorded {
        Recorded {
            about: self.codes.clone(),
            tags,
            remarks: Vec::new(),
            what: What::Muddled {
                codes: self.codes.clone(),
                settled: self.settled,
                still,
                rows: self.rows,
                on: on.text,
            },
        }
    }

    /// The record of the mix-up for one of the codes.
    fn mixed(&self, code: &str, on: &Dated) -> String {
        RonRecord::new()
            .text("on", &on.text)
            .value(
                "with",
                texts(self.codes.iter().filter(|other| *other != code)),
            )
            .text_if("why", self.why.as_ref())
            .line()
    }

    fn mix_plants(&self, draft: &mut Draft, plants: &[PlantRow], on: &Dated) -> Result<(), Slip> {
        if self.rows.is_some() {
            return Err(Slip::contradicts(
                "--rows was given with plants",
                "every plant named is in doubt",
                "--rows belongs to community pots",
            ));
        }
        let registry = draft.registry;
        let mut pods: Vec<PodCode> = Vec::new();
        for &plant in plants {
            here(registry, PlantOrRamet::whole(plant), on.day(draft.today))
                .map_err(|gone| self.earlier(gone))?;
            for pod in pods_of(registry, plant)? {
                if !pods.contains(&pod) {
                    pods.push(pod);
                }
            }
        }
        let changes = plants.iter().map(|&plant| {
            let code = registry.code(plant);
            let mut changes = vec![FieldChange::Push("muddled", self.mixed(&code, on))];
            if let (Some(cross), [_, _, ..]) = (registry.cross_of(plant), &pods[..]) {
                changes.push(FieldChange::Set(
                    "one_of",
                    seen_from(registry, cross, &pods),
                ));
            }
            (plant, changes)
        });
        draft.change_plants(changes.collect())
    }

    /// The refusal of a plant that has left, which may have been mixed up before.
    fn earlier(&self, gone: Slip) -> Slip {
        match gone {
            Slip::Gone { code, fate, .. } if self.on.is_none() => Slip::contradicts(
                format!("{code} was to be recorded as mixed up today"),
                format!("it is no longer here: {fate}"),
                words!("if they were mixed up before that, give the day with {}"; day()),
            ),
            gone => gone,
        }
    }

    fn settle_plants(
        &self,
        draft: &mut Draft,
        plants: &[PlantRow],
        on: &Dated,
    ) -> Result<Vec<StillMixedUp>, Slip> {
        let registry = draft.registry;
        let (mut changes, mut still) = (Vec::new(), Vec::new());
        for (&plant, code) in plants.iter().zip(&self.codes) {
            let muddled = registry.mix_ups(plant);
            changes.push((plant, self.settle(muddled, (code, on), &mut still)?));
        }
        draft.change_plants(changes)?;
        Ok(still)
    }

    fn settle_pots(
        &self,
        draft: &mut Draft,
        pots: &[PotRow],
        on: &Dated,
    ) -> Result<Vec<StillMixedUp>, Slip> {
        let registry = draft.registry;
        let mut still = Vec::new();
        for (&row, code) in pots.iter().zip(&self.codes) {
            let changes = self.settle(&of_pot(registry, row), (code, on), &mut still)?;
            draft
                .cross(row.cross)
                .change_at("community_pots", row.at, &changes)?;
        }
        Ok(still)
    }

    /// What settles the mix-ups of one of the codes with the others named; of one named alone all that are open. A mix-up with
    /// none of them stays, and what it may be with it.
    fn settle(
        &self,
        muddled: &[MixUp],
        (code, on): (&String, &Dated),
        still: &mut Vec<StillMixedUp>,
    ) -> Result<Vec<FieldChange>, Slip> {
        let open = muddled.iter().enumerate();
        let open = open.filter(|(_, muddle)| muddle.settled.is_none());
        let (meant, others): (Vec<_>, Vec<_>) = open.partition(|(_, muddle)| self.settles(muddle));
        if meant.is_empty() {
            let with = others.iter().flat_map(|(_, muddle)| muddle.with.iter());
            let with: Vec<&String> = with.collect();
            return Err(nothing_open(code, &with));
        }
        let mut changes: Vec<FieldChange> = meant
            .iter()
            .map(|(at, of)| match of.is_own {
                true => settled(*at, on, self.why_now(of)),
                false => settled_here(of, on, self.why_now(of)),
            })
            .collect();
        let with = others.iter().flat_map(|(_, muddle)| muddle.with.iter());
        let with: Vec<String> = with.cloned().collect();
        match with.is_empty() {
            true => changes.push(FieldChange::Remove("one_of")),
            false => still.push((code.clone(), with)),
        }
        Ok(changes)
    }

    /// How a mix-up happened, with what is now said of its tags; `None` where nothing is.
    fn why_now(&self, muddle: &MixUp) -> Option<String> {
        let tags = match (self.tags_right, self.tags_swapped) {
            (true, _) => "the tags were right",
            (_, true) => "the tags were swapped",
            _ => return None,
        };
        let was = muddle.why.as_deref().map(|why| format!("{why}; "));
        Some(format!("{}{tags}", was.unwrap_or_default()))
    }

    fn mix_pots(&self, draft: &mut Draft, pots: &[PotRow], on: &Dated) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let mut pods: Vec<PodCode> = Vec::new();
        for &pot in pots {
            for pod in pods_of_pot(registry, pot)? {
                if !pods.contains(&pod) {
                    pods.push(pod);
                }
            }
        }
        let mut tags = Vec::new();
        match self.rows {
            None => {
                for (&pot, code) in pots.iter().zip(&self.codes) {
                    let mut changes = vec![FieldChange::Push("muddled", self.mixed(code, on))];
                    if pods.len() > 1 {
                        changes.push(FieldChange::Set(
                            "one_of",
                            seen_from(registry, pot.cross, &pods),
                        ));
                    }
                    draft
                        .cross(pot.cross)
                        .change_at("community_pots", pot.at, &changes)?;
                }
            }
            Some(rows) => {
                let cross = pots[0].cross;
                let page = &registry[cross].page;
                let pot = next_part('T', page.community_pots.iter().map(|pot| pot.code));
                let alive = tally(&on.text, rows);
                let mixed = RonRecord::new()
                    .text("on", &on.text)
                    .value("with", texts(&self.codes))
                    .text_if("why", self.why.as_ref());
                let record = RonRecord::new()
                    .text("code", &pot)
                    .value("one_of", seen_from(registry, cross, &pods))
                    .value("muddled", format!("[{}]", mixed.line()))
                    .value("alive", format!("[{alive}]"));
                draft
                    .cross(cross)
                    .append("community_pots", &[record.line()])?;
                tags.push(Tag {
                    code: format!("{}.{pot}", page.code),
                    on: "new pot, with the mixed-up seedlings",
                });
            }
        }
        draft.second_form()?;
        Ok(self.told(on.clone(), Vec::new(), tags))
    }
}

/// The mix-ups of each of some plants, or of some pots.
fn muddles<'r>(
    registry: &'r Registry,
    plants: &'r [PlantRow],
    pots: &'r [PotRow],
) -> impl Iterator<Item = Vec<MixUp<'r>>> {
    let of_plants = plants.iter().map(|&plant| registry.mix_ups(plant).to_vec());
    of_plants.chain(pots.iter().map(|&pot| of_pot(registry, pot)))
}

fn of_pot<'r>(registry: &'r Registry, pot: PotRow) -> Vec<MixUp<'r>> {
    registry[pot].muddled.iter().map(MixUp::of).collect()
}

/// The mix-ups of a seedling or a community pot, by its code.
fn muddles_of<'r>(registry: &'r Registry, code: &str) -> Vec<MixUp<'r>> {
    match registry.target(code) {
        Some(Target::Plant(plant)) => registry.mix_ups(plant).to_vec(),
        Some(Target::CommunityPot(pot)) => of_pot(registry, pot),
        _ => Vec::new(),
    }
}

/// Settles a mix-up that only the record of another plant has: it is written on this one too.
fn settled_here(of: &MixUp, on: &Dated, why: Option<String>) -> FieldChange {
    let why = why.or_else(|| of.why.clone());
    let record = RonRecord::new()
        .text("on", of.on)
        .value("with", texts(&of.with))
        .text_if("why", why)
        .text("settled", &on.text);
    FieldChange::Push("muddled", record.line())
}

fn settled(at: usize, on: &Dated, why: Option<String>) -> FieldChange {
    let why = why.map(|why| FieldChange::Set("why", text(&why)));
    let settled = FieldChange::Set("settled", text(&on.text));
    FieldChange::Within(Within {
        list: "muddled",
        at: At::Index(at),
        changes: [settled].into_iter().chain(why).collect(),
    })
}

fn nothing_open(code: &str, with: &[&String]) -> Slip {
    Slip::nothing(match with {
        [] => format!("{code} has no mix-up on record that is not settled"),
        others => format!(
            "{code} is mixed up with {}, and with none of the others that were named",
            listed(others)
        ),
    })
}

/// The pods a seedling may be of: those in doubt already, or the one on its record.
fn pods_of(registry: &Registry, plant: PlantRow) -> Result<Vec<PodCode>, Slip> {
    let Some(cross) = registry.cross_of(plant) else {
        return Err(no_pod(&registry.code(plant)));
    };
    if let Some(seedling) = registry
        .seedling(plant)
        .filter(|seedling| !seedling.one_of.is_empty())
    {
        return Ok(seedling
            .one_of
            .iter()
            .map(|pod| in_full(registry, cross, pod))
            .collect());
    }
    let page = &registry[cross].page;
    match (registry.road(plant).1, page.pods.as_slice()) {
        (Some(pod), _) => Ok(vec![(cross, registry[pod].code.to_owned())]),
        (None, [only]) => Ok(vec![(cross, only.code.to_owned())]),
        _ => Err(no_pod(&registry.code(plant))),
    }
}

/// The pods a community pot may be of.
fn pods_of_pot(registry: &Registry, row: PotRow) -> Result<Vec<PodCode>, Slip> {
    let cross = row.cross;
    let page = &registry[cross].page;
    let pot = &registry[row];
    if !pot.one_of.is_empty() {
        return Ok(pot
            .one_of
            .iter()
            .map(|pod| in_full(registry, cross, pod))
            .collect());
    }
    let sowing = page
        .sowings
        .iter()
        .find(|sowing| Some(sowing.code) == pot.sowing);
    let of_lot = sowing.and_then(|sowing| {
        let lot = page
            .seed_lots
            .iter()
            .find(|lot| Some(lot.code) == sowing.lot)?;
        lot.pod
    });
    let only = || (page.pods.len() == 1).then(|| page.pods[0].code);
    let pod = sowing
        .and_then(|sowing| sowing.pod)
        .or(of_lot)
        .or_else(only);
    match pod {
        Some(pod) => Ok(vec![(cross, pod.to_owned())]),
        None => Err(no_pod(&format!("{}.{}", page.code, pot.code))),
    }
}

fn no_pod(code: &str) -> Slip {
    Slip::nothing(words!(
        "the pod of {code} is not on record, so podbook cannot say which pods it may be of\nrecord the pod first{}";
        Words::or(": `podbook harvest`, or `pods` on its page", ", at the computer")
    ))
}

/// `P1` on the page of its cross, `X21-03.P1` of any.
fn in_full(registry: &Registry, cross: CrossRow, pod: &str) -> PodCode {
    let of_other = pod
        .rsplit_once('.')
        .and_then(|(other, pod)| Some((registry.cross(other)?, pod.to_owned())));
    of_other.unwrap_or_else(|| (cross, pod.to_owned()))
}

/// Pods as a page of a cross writes them.
fn seen_from(registry: &Registry, cross: CrossRow, pods: &[PodCode]) -> String {
    texts(pods.iter().map(|(of, pod)| match *of == cross {
        true => pod.clone(),
        false => format!("{}.{pod}", registry[*of].page.code),
    }))
}
