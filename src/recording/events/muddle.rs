//! Plants or community pots mixed up: each becomes one of the several, until it is known again.
//!
//! Plants of different pods may be of any of those pods from then on, which `one_of` says to every answer. Plants of one
//! pod keep their parents; only what was read of them is in doubt, which the mix-up says.

use super::in_between::{InBetween, where_it_stands};
use super::mixed::{Mixed, PodCode};
use crate::recording::codes::next_part;
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{here, not_before};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::{Absence, Slip};
use crate::recording::voice::{day, words};
use crate::recording::written::{RonRecord, tally, text, texts};
use crate::registry::{CrossRow, MixUp, Registry};
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
        let on = draft.day(&self.on)?;
        let mixed = self.codes.iter().map(|code| Mixed::of(registry, code));
        let mixed: Vec<Mixed> = mixed.collect::<Result<_, Slip>>()?;
        let distinct: BTreeSet<&String> = self.codes.iter().collect();
        if distinct.len() < self.codes.len() || (self.codes.len() < 2 && !self.settled) {
            return Err(Slip::wanted(
                "say with which other one it was mixed up",
                "at least two different codes, such as X22-02-3 X22-02-4",
            ));
        }
        let remarks = match self.settled {
            true => self.in_between(registry, &mixed, &on)?,
            false => Vec::new(),
        };
        let is_one_kind = mixed.iter().all(|of| of.is_plant() == mixed[0].is_plant());
        if mixed.is_empty() || !is_one_kind {
            return Err(Slip::contradicts(
                "plants and community pots were named together",
                "a mix-up is of one kind",
                "name only plants, or only community pots",
            ));
        }
        let (mut still, mut new_pot) = (Vec::new(), None);
        match self.settled {
            true => still = self.settle_all(draft, &mixed, &on)?,
            false => new_pot = self.mix(draft, &mixed, &on)?,
        }
        draft.second_form()?;
        let left = self.left_open(registry, &mixed, &on);
        let what = What::Muddled {
            codes: self.codes.clone(),
            settled: self.settled,
            still,
            rows: self.rows,
        };
        Ok(Recorded::of(what, self.codes.clone(), on.text)
            .tag(new_pot, "new pot, with the mixed-up seedlings")
            .remarks(remarks)
            .remarks(left))
    }

    /// What is to be said of what was recorded since the plants were mixed up.
    ///
    /// # Errors
    /// If something was, and it is not said that the tags were right; if the day is before that of the mix-up.
    fn in_between(
        &self,
        registry: &Registry,
        mixed: &[Mixed],
        on: &Dated,
    ) -> Result<Vec<String>, Slip> {
        for (code, of) in self.codes.iter().zip(mixed) {
            let mut meant = of.mix_ups(registry).into_iter();
            let is_later = |of: &MixUp| on.when.surely_before(registry.when(of.on));
            if let Some(later) = meant.find(|of| self.settles(of) && is_later(of)) {
                return Err(Slip::contradicts(
                    format!("the mix-up of {code} was settled {}", at_date(&on.text)),
                    format!("it was mixed up {}", at_date(later.on)),
                    "give the day on which it was settled with --on",
                ));
            }
        }
        let found = mixed.iter().filter_map(|of| {
            let meant = of.mix_ups(registry).into_iter();
            let since = meant.filter(|of| self.settles(of));
            let since = since.map(|of| registry.when(of.on));
            let since = since.min_by_key(|since| since.first)?;
            of.recorded(registry, [since, on.when])
        });
        let found: Vec<InBetween> = found.collect();
        let put = || "Put the tag of each on the other".to_owned();
        if found.is_empty() {
            let swapped = self.tags_swapped && mixed.len() == 2 && mixed[0].is_plant();
            return Ok(Vec::from_iter(swapped.then(put)));
        }
        let recorded: Vec<&str> = found.iter().map(|of| &*of.words).collect();
        let recorded = recorded.join("; ");
        if self.moved {
            let stands = format!("Recorded in between, as it stands now: {recorded}");
            return Ok(vec![stands, put()]);
        }
        if self.tags_right {
            return Ok(vec![format!(
                "Recorded in between, and kept as it stands since the tags were right: {recorded}"
            )]);
        }
        let help = match self.tags_swapped {
            true => format!(
                "podbook does not move it: write each of these by hand where it belongs, under the other code ({}); then: podbook muddle {} --settled --tags-swapped --moved",
                where_it_stands(&found),
                self.codes.join(" ")
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

    /// What is to be said of the others of a mix-up that are on record as mixed up still; nothing where none was settled. Of
    /// two, `check` says it.
    fn left_open(&self, registry: &Registry, mixed: &[Mixed], on: &Dated) -> Option<String> {
        let all = mixed.iter().flat_map(|of| of.mix_ups(registry));
        let meant = all.filter(|of| self.settled && of.with.len() > 1 && self.settles(of));
        let with: BTreeSet<String> = meant.flat_map(|of| of.with).collect();
        let is_named = |code: &str| self.codes.iter().any(|named| named == code);
        let open = |code: &str| -> Vec<String> {
            let all = Mixed::of(registry, code).map(|of| of.mix_ups(registry));
            let open = all.into_iter().flatten();
            let open = open.filter(|of| of.settled.is_none());
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
                // Tags that were right on all the others were right on this one.
                let tags = if self.tags_right { " --tags-right" } else { "" };
                Some(format!(
                    "{last} is known too, since all the others are, but its record still says mixed up; to settle it: {settle}{tags}"
                ))
            }
            [one] => Some(format!(
                "{one} is still mixed up; when you know which it is: {settle}"
            )),
            _ => Some(format!(
                "{} are still mixed up; when you can tell them apart: {settle}",
                listed(&left)
            )),
        }
    }

    /// The record of a mix-up with some of the codes.
    fn mixed<'a>(&self, with: impl IntoIterator<Item = &'a String>, on: &Dated) -> RonRecord {
        RonRecord::new()
            .text("on", &on.text)
            .value("with", texts(with))
            .text_if("why", self.why.as_ref())
    }

    /// Writes the mix-up; the code of the pot that is new where only some seedlings of pots were mixed up.
    fn mix(&self, draft: &mut Draft, mixed: &[Mixed], on: &Dated) -> Result<Option<String>, Slip> {
        let registry = draft.registry;
        let plants = mixed.iter().filter_map(|of| of.plant());
        plants
            .clone()
            .try_for_each(|plant| not_before(registry, plant, on))?;
        if let (Some(_), true) = (self.rows, mixed[0].is_plant()) {
            return Err(Slip::contradicts(
                "--rows was given with plants",
                "every plant named is in doubt",
                "--rows belongs to community pots",
            ));
        }
        let mut pods: Vec<PodCode> = Vec::new();
        for of in mixed {
            if let Some(plant) = of.plant() {
                here(registry, plant, on.day()).map_err(|gone| self.earlier(gone))?;
            }
            for pod in of.pods(registry)? {
                if !pods.contains(&pod) {
                    pods.push(pod);
                }
            }
        }
        if let Some(rows) = self.rows {
            return self.mix_rows(draft, (mixed[0].cross(), rows), &pods, on);
        }
        for (of, code) in mixed.iter().zip(&self.codes) {
            let others = self.codes.iter().filter(|other| *other != code);
            let (mut record, mut changes) = (self.mixed(others, on), Vec::new());
            if pods.len() > 1 {
                let was = of.one_of(registry);
                record = record.value_if("one_of_before", (!was.is_empty()).then(|| texts(was)));
                let pods = seen_from(registry, of.cross(), &pods);
                changes.push(FieldChange::Set("one_of", pods));
            }
            changes.insert(0, FieldChange::Push("muddled", record.line()));
            of.change(draft, changes)?;
        }
        Ok(None)
    }

    /// Writes a new pot, of some seedlings of the pots named.
    fn mix_rows(
        &self,
        draft: &mut Draft,
        (cross, rows): (CrossRow, u32),
        pods: &[PodCode],
        on: &Dated,
    ) -> Result<Option<String>, Slip> {
        let registry = draft.registry;
        let page = &registry[cross].page;
        let pot = next_part('T', page.community_pots.iter().map(|pot| pot.code));
        let record = RonRecord::new()
            .text("code", &pot)
            .value("one_of", seen_from(registry, cross, pods))
            .value(
                "muddled",
                format!("[{}]", self.mixed(&self.codes, on).line()),
            )
            .value("alive", format!("[{}]", tally(&on.text, rows)));
        let text = draft.cross(cross);
        text.append("community_pots", &[record.line()])?;
        Ok(Some(format!("{}.{pot}", page.code)))
    }

    /// The refusal of a plant that has left, which may have been mixed up before.
    fn earlier(&self, gone: Slip) -> Slip {
        match gone {
            Slip::Gone {
                code,
                fate,
                absence: Absence::Ended | Absence::Lost,
            } if self.on.is_none() => Slip::contradicts(
                format!("{code} was to be recorded as mixed up today"),
                format!("it is no longer here: {fate}"),
                words!("if they were mixed up before that, give the day with {}"; day()),
            ),
            gone => gone,
        }
    }

    fn settle_all(
        &self,
        draft: &mut Draft,
        mixed: &[Mixed],
        on: &Dated,
    ) -> Result<Vec<StillMixedUp>, Slip> {
        let registry = draft.registry;
        let mut still = Vec::new();
        for (of, code) in mixed.iter().zip(&self.codes) {
            let changes = self.settle(&of.mix_ups(registry), (code, on), &mut still)?;
            of.change(draft, changes)?;
        }
        Ok(still)
    }

    /// What settles the mix-ups of one of the codes with the others named; of one named alone all that are open. A mix-up with
    /// none of them stays, and what it may be with it; so does what was in doubt before.
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
        changes.extend(self.pods_again(muddled, with.is_empty()));
        if !with.is_empty() {
            still.push((code.clone(), with));
        }
        Ok(changes)
    }

    /// The pods that stood on the record before a mix-up which is settled: they stand there again, or on the next mix-up that
    /// stays open, since its own hold what this one had brought.
    fn pods_again(&self, muddled: &[MixUp], is_last: bool) -> Vec<FieldChange> {
        let own = muddled.iter().enumerate();
        let own = own.filter(|(_, of)| of.is_own && of.settled.is_none());
        let (mut before, mut changes) = (None, Vec::new());
        for (at, of) in own {
            if self.settles(of) {
                before = before.or(Some(&of.one_of_before[..]));
            } else if let Some(pods) = before.take() {
                let pods = pods_put("one_of_before", pods);
                changes.push(FieldChange::at("muddled", at, vec![pods]));
            }
        }
        match before {
            // By hand the others may have been written without the pods that they brought.
            Some([]) if !is_last => {}
            Some(pods) => changes.push(pods_put("one_of", pods)),
            None => {}
        }
        changes
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
    let before = FieldChange::Remove("one_of_before");
    let changes = [settled, before].into_iter().chain(why).collect();
    FieldChange::at("muddled", at, changes)
}

fn pods_put(field: &'static str, pods: &[&str]) -> FieldChange {
    match pods {
        [] => FieldChange::Remove(field),
        pods => FieldChange::Set(field, texts(pods)),
    }
}

fn nothing_open(code: &str, with: &[&String]) -> Slip {
    Slip::nothing(match with {
        [] => format!("{code} has no open mix-up on record"),
        others => format!(
            "{code} is mixed up with {}, and with none of the others that were named",
            listed(others)
        ),
    })
}

/// Pods as a page of a cross writes them.
fn seen_from(registry: &Registry, cross: CrossRow, pods: &[PodCode]) -> String {
    texts(pods.iter().map(|(of, pod)| match *of == cross {
        true => pod.clone(),
        false => format!("{}.{pod}", registry[*of].page.code),
    }))
}
