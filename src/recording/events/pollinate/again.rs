//! A zone that is dusted again: what is the same line twice, and what contradicts the record.

use super::event::Pollinate;
use super::father::{Father, of_envelope};
use crate::record::{CrossPage, Pollination};
use crate::recording::dates::Dated;
use crate::recording::page::FieldChange;
use crate::recording::parts::Part;
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, day, field, words};
use crate::recording::written::{noted, text};
use crate::registry::{CrossRow, PlantOrRamet, Registry, ZoneRow};
use crate::wording::{at_date, joined_if_any, listed};

impl Pollinate {
    /// Refuses the same flowers on the same day once more: a line that was given twice.
    pub(super) fn not_twice(
        &self,
        registry: &Registry,
        cross: CrossRow,
        (seed, envelope, on): (PlantOrRamet, Option<&str>, &Dated),
    ) -> Result<(), Slip> {
        let page = &registry[cross].page;
        let piece = seed.ramet.map(|_| registry.code_of(seed));
        let same = |known: &&Pollination| {
            let zone = self.zone.as_deref().is_none_or(|zone| zone == known.zone);
            // A zone that is named is one zone: where one of the two lines names its piece or spike, it is that of both.
            let is_named = self.zone.is_some();
            let agree = |asked: Option<&str>, known: Option<&str>| {
                asked == known || (is_named && (asked.is_none() || known.is_none()))
            };
            let day = |day: &&str| {
                *day == on.text || (on.when.is_exact() && registry.when(day) == on.when)
            };
            zone && known.on.iter().any(|text| day(&&**text))
                && known.pollen == envelope
                && agree(self.spike.as_deref(), known.spike)
                && agree(piece.as_deref(), known.plant)
        };
        let Some(known) = page.pollinations.iter().find(same) else {
            return Ok(());
        };
        Err(Slip::contradicts(
            format!(
                "{} was pollinated {}",
                registry.code_of(seed),
                at_date(&on.text)
            ),
            format!(
                "{}.{} is on record as dusted that day already",
                page.code, known.zone
            ),
            words!(
                "if these are other flowers, name their zone with {}, such as {}upper; if the day is wrong, give it with {}";
                field("--zone"), Words::or("--zone ", ""), day()
            ),
        ))
    }

    /// That a zone without a piece on record is of the piece named from now on.
    pub(super) fn piece_added(
        &self,
        registry: &Registry,
        zone: ZoneRow,
        seed: PlantOrRamet,
    ) -> Option<Words> {
        let is_new = registry[zone].plant.is_none() && seed.ramet.is_some();
        is_new.then(|| {
            format!(
                "{} was on record without a piece and now counts as flowers of {}, also those dusted before",
                zone.code(registry),
                registry.code_of(seed)
            ).into()
        })
    }

    /// What is written of a zone that is dusted again: the day, and what is not on record of it yet.
    ///
    /// # Errors
    /// If something contradicts its record.
    pub(super) fn more(
        &self,
        registry: &Registry,
        row: ZoneRow,
        seed: PlantOrRamet,
        (father, envelope, on): (&Father, Option<&str>, &Dated),
    ) -> Result<Vec<FieldChange>, Slip> {
        let zone = KnownZone {
            registry,
            known: &registry[row],
            code: row.code(registry),
        };
        let used = zone.pollen(father, envelope, on)?;
        let mut changes = vec![FieldChange::Push("on", text(&on.text))];
        if !used.is_empty() && zone.known.pollen.is_some() {
            changes.push(FieldChange::Remove("pollen"));
        }
        let piece = seed.ramet.map(|_| registry.code_of(seed));
        changes.extend(zone.stands(piece.as_deref(), self.spike.as_deref())?);
        changes.extend(zone.flowers(self)?);
        if let Some(note) = joined_if_any(used.into_iter().chain(self.remarks(registry)), "; ") {
            let all = noted(zone.known.note.as_deref(), &note);
            changes.push(FieldChange::Set("note", text(&all)));
        }
        Ok(changes)
    }

    /// What becomes of the goal of a page that is there already.
    ///
    /// # Errors
    /// If it has another goal.
    pub(super) fn goal_of(&self, page: &CrossPage) -> Result<Option<&str>, Slip> {
        let differ = |asked, there| {
            Slip::contradicts(
                format!("{} was asked for with the goal `{asked}`", page.code),
                format!("its goal is `{there}`"),
                "a cross has one goal: write both into its page, or leave out --goal",
            )
        };
        let goals = (self.goal.as_deref(), page.goal.as_deref());
        news(goals, differ)
    }
}

/// A zone on record, and what is asked for besides.
struct KnownZone<'a, 't> {
    registry: &'a Registry<'t>,
    known: &'a Pollination<'t>,
    code: String,
}

impl KnownZone<'_, '_> {
    fn contradicts(&self, asked: &str, recorded: String) -> Slip {
        Slip::contradicts(
            format!("zone {} was {asked}", self.code),
            recorded,
            Words::or("name another zone with --zone", "name another “Zone”"),
        )
    }

    /// What the note must say of the pollen: nothing where it is the same on all days. Of one plant it may be fresh on one day
    /// and out of an envelope on the other.
    fn pollen(
        &self,
        father: &Father,
        envelope: Option<&str>,
        on: &Dated,
    ) -> Result<Vec<String>, Slip> {
        let (registry, known) = (self.registry, self.known);
        let differs = envelope != known.pollen;
        let is_then = |day: &&str| registry.when(day) == on.when;
        let is_one = || is_of_one_plant(registry, father, [known.pollen, envelope]);
        if differs && (!is_one() || known.on.iter().any(is_then)) {
            let asked = father.pollen_words(envelope);
            let then = father.pollen_words(known.pollen);
            return Err(self.contradicts(
                &format!("to be dusted with {asked}"),
                format!("it was dusted with {then}"),
            ));
        }
        let is_said = says_its_days(registry, father, known);
        let then = || dusted_with(father, known.pollen, &known.on);
        let now = || dusted_with(father, envelope, &[&*on.text]);
        Ok(match (is_said, differs) {
            (true, _) => vec![now()],
            (false, true) => vec![then(), now()],
            (false, false) => Vec::new(),
        })
    }

    /// The piece and the spike, where they were not on record.
    fn stands(&self, piece: Option<&str>, spike: Option<&str>) -> Result<Vec<FieldChange>, Slip> {
        let of_piece = ("plant", piece, self.known.plant, "");
        let of_spike = ("spike", spike, self.known.spike, "spike ");
        let mut changes = Vec::new();
        for (field, asked, there, is) in [of_piece, of_spike] {
            let differ = |asked, there| {
                let asked = format!("asked for on {is}{asked}");
                self.contradicts(&asked, format!("it is on {is}{there}"))
            };
            let new = news((asked, there), differ)?;
            changes.extend(new.map(|new| FieldChange::Set(field, text(new))));
        }
        Ok(changes)
    }

    /// The numbers of flowers and whether they were covered, where they were not on record.
    fn flowers(&self, asked: &Pollinate) -> Result<Vec<FieldChange>, Slip> {
        let known = self.known;
        let dusted = ("flowers", asked.flowers, known.flowers);
        let controls = ("control_flowers", asked.controls, known.control_flowers);
        let mut changes = Vec::new();
        for (field, asked, there) in [dusted, controls] {
            let differ = |asked, there| {
                let asked = format!("asked for with {asked} {}", field.replace('_', " "));
                self.contradicts(&asked, format!("{there} are on record"))
            };
            let new = news((asked, there), differ)?;
            changes.extend(new.map(|new| FieldChange::Set(field, new.to_string())));
        }
        let covered = news((asked.covered.then_some(true), known.covered), |_, _| {
            let there = "it is on record as not covered";
            self.contradicts("covered", there.to_owned())
        })?;
        changes.extend(covered.map(|_| FieldChange::Set("covered", "true".to_owned())));
        Ok(changes)
    }
}

/// Whether pollen is of one known plant on both days, also by what is on record of the envelopes: none is less sure, or the
/// word of another grower.
fn is_of_one_plant(registry: &Registry, father: &Father, envelopes: [Option<&str>; 2]) -> bool {
    let is_his = |code: &str| {
        let lot = registry.pollen_lot(code).map(|lot| &registry[lot]);
        lot.is_some_and(|lot| lot.told_by.is_none() && of_envelope(registry, &lot.from) == *father)
    };
    matches!(father, Father::Known(_)) && envelopes.into_iter().flatten().all(is_his)
}

/// Whether the note of a zone says already what was used on its first days, as it is written here when that is first unlike:
/// then each further day adds its own words. A day in a note of the grower's own says nothing of pollen.
fn says_its_days(registry: &Registry, father: &Father, known: &Pollination) -> bool {
    let of_the_first = |said: &str| {
        (1..=known.on.len()).any(|days| {
            let behind = format!(" {}", at_date(&listed(&known.on[..days])));
            let pollen = said.strip_suffix(&behind);
            pollen.is_some_and(|pollen| {
                pollen == father.pollen_words(None) || registry.pollen_lot(pollen).is_some()
            })
        })
    };
    let mut said = known.note.iter().flat_map(|note| note.split("; "));
    known.pollen.is_none() && said.any(of_the_first)
}

/// `fresh pollen of Spa1 on 2024-03-02`.
fn dusted_with(father: &Father, envelope: Option<&str>, days: &[&str]) -> String {
    format!(
        "{} {}",
        father.pollen_words(envelope),
        at_date(&listed(days))
    )
}

/// What was asked for and is not on record yet.
///
/// # Errors
/// As `differ` says, where something else is on record.
fn news<T: PartialEq<U> + Copy, U: Copy>(
    (asked, there): (Option<T>, Option<U>),
    differ: impl Fn(T, U) -> Slip,
) -> Result<Option<T>, Slip> {
    match (asked, there) {
        (Some(asked), Some(there)) if asked != there => Err(differ(asked, there)),
        (asked, None) => Ok(asked),
        _ => Ok(None),
    }
}
