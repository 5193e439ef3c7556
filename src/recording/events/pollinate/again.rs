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
        let (known, zone) = (&registry[row], row.code(registry));
        let other = |asked: String, recorded: String| {
            Slip::contradicts(
                format!("zone {zone} was {asked}"),
                recorded,
                Words::or("name another zone with --zone", "name another “Zone”"),
            )
        };
        let mut changes = vec![FieldChange::Push("on", text(&on.text))];
        let mut note = self.remarks(registry);
        let (differs, is_said) = (
            envelope != known.pollen,
            says_its_days(registry, father, known),
        );
        if differs {
            let is_then = |day: &&str| registry.when(day) == on.when;
            let is_one = is_of_one_plant(registry, father, [known.pollen, envelope]);
            if !is_one || known.on.iter().any(is_then) {
                return Err(other(
                    format!("to be dusted with {}", father.pollen_words(envelope)),
                    format!("it was dusted with {}", father.pollen_words(known.pollen)),
                ));
            }
        }
        if differs || is_said {
            // Of one plant it may be fresh on one day and out of an envelope on the other: the note says which.
            let then = dusted_with(father, known.pollen, &known.on);
            let now = dusted_with(father, envelope, &[&*on.text]);
            let then = Some(then).filter(|_| !is_said);
            note = joined_if_any(then.into_iter().chain([now]).chain(note), "; ");
            changes.extend(known.pollen.map(|_| FieldChange::Remove("pollen")));
        }
        let piece = seed.ramet.map(|_| registry.code_of(seed));
        let place = [
            ("plant", piece.as_deref(), known.plant, ""),
            ("spike", self.spike.as_deref(), known.spike, "spike "),
        ];
        for (field, asked, there, is) in place {
            let differ = |asked, there| {
                let asked = format!("asked for on {is}{asked}");
                other(asked, format!("it is on {is}{there}"))
            };
            let new = news((asked, there), differ)?;
            changes.extend(new.map(|new| FieldChange::Set(field, text(new))));
        }
        let (flowers, controls) = (self.flowers, self.controls);
        let numbers = [
            ("flowers", flowers, known.flowers),
            ("control_flowers", controls, known.control_flowers),
        ];
        for (field, asked, there) in numbers {
            let differ = |asked, there| {
                let asked = format!("asked for with {asked} {}", field.replace('_', " "));
                other(asked, format!("{there} are on record"))
            };
            let new = news((asked, there), differ)?;
            changes.extend(new.map(|new| FieldChange::Set(field, new.to_string())));
        }
        let covered = news((self.covered.then_some(true), known.covered), |_, _| {
            let there = "it is on record as not covered";
            other("covered".to_owned(), there.to_owned())
        })?;
        changes.extend(covered.map(|_| FieldChange::Set("covered", "true".to_owned())));
        if let Some(note) = note {
            let all = noted(known.note.as_deref(), &note);
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
