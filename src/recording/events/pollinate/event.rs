//! Flowers of one zone of a spike dusted with pollen: one page a pair and year, one record a zone, one date a dusting.

use super::father::{Father, GivenPollen, father, not_of_sex, pair_of, parents};
use crate::record::{CrossPage, Sex, When};
use crate::recording::codes::next_cross;
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::in_flower::{open_then, spike_named};
use crate::recording::plants::{here_then, single};
use crate::recording::recorded::{Recorded, What};
use crate::recording::slip::Slip;
use crate::recording::voice::{Words, words};
use crate::recording::written::{RonRecord, lines, text, texts};
use crate::registry::ids::is_new_code;
use crate::registry::{CrossRow, PlantOrRamet, Registry};
use crate::wording::{at_date, days};

/// A pollination.
#[derive(Clone, Debug, Default)]
pub struct Pollinate {
    /// The seed parent, or the piece of it that flowers.
    pub seed: String,
    /// Whose pollen.
    pub pollen: Option<GivenPollen>,
    /// The zone; the next free letter if not given.
    pub zone: Option<String>,
    /// The spike's code.
    pub spike: Option<String>,
    /// Flowers treated.
    pub flowers: Option<u32>,
    /// Flowers left alone as controls.
    pub controls: Option<u32>,
    /// Whether the spike was covered against stray pollen.
    pub covered: bool,
    /// What the cross is for.
    pub goal: Option<String>,
    /// When; today if not given.
    pub on: Option<String>,
    /// Remarks.
    pub note: Option<String>,
}

impl Pollinate {
    /// Writes the pollination on the page of its pair and year, which is begun when there is none.
    ///
    /// # Errors
    /// If a parent is unknown, gone or of the other sex, the envelope is finished, or the zone is of another pollen.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = draft.day(&self.on)?;
        let seed = single(registry, &self.seed)?;
        here_then(registry, seed, &on)?;
        not_of_sex(registry, seed, Sex::Male, "the seed parent")?;
        let given = self.pollen.clone().ok_or_else(|| Slip::missing("the pollen", "--with and an envelope or plant, such as --with Spa1-2404; or --one-of, --mixed, --open"))?;
        let (father, envelope) = father(draft, given, &on)?;
        if self.flowers == Some(0) {
            return Err(Slip::bad_number("--flowers", "0", "at least one flower"));
        }
        let mut remarks = self.open_spike(registry, seed, on.when)?;
        remarks.extend(self.doubts(registry, seed, &on));
        let year = on.year();
        let mother = registry.code(seed.plant);
        let of_pair = pages_of(registry, &mother, &father, year);
        let may_share = |cross: &CrossRow| {
            let page = &registry[*cross].page;
            envelope.is_some() || self.may_share_father(registry, page, (&father, &on))
        };
        let found = of_pair.iter().copied().find(may_share);
        if let (None, [of_day, ..]) = (found, &of_pair[..]) {
            remarks.push(of_its_own(registry, *of_day));
        }
        let zone = self.zone(registry, found)?;
        let again = found.and_then(|cross| {
            let mut zones = registry.zones(cross);
            let known = zones.find(|(_, known)| known.zone == zone);
            known.map(|(at, _)| at)
        });
        if let Some(cross) = found {
            self.not_twice(registry, cross, (seed, envelope.as_deref(), &on))?;
        }
        let cross = match found {
            Some(cross) => registry[cross].page.code.to_owned(),
            None => next_cross(registry, year),
        };
        let with = envelope.as_deref();
        if let Some(found) = found
            && let Some(goal) = self.goal_of(&registry[found].page)?
        {
            draft.cross(found).set("goal", &text(goal))?;
        }
        let record = self.pollination(registry, seed, &zone, (&on, with));
        match (again, found) {
            (Some(known), _) => {
                remarks.extend(self.piece_added(registry, known, seed));
                let more = self.more(registry, known, seed, (&father, with, &on))?;
                draft.change_part(known, &more)?;
            }
            (None, Some(found)) => draft.cross(found).append("pollinations", &[record])?,
            (None, None) => {
                let page = self.page(&cross, parents(&mother, &father), record);
                draft.new_cross(&cross, &page)?;
            }
        }
        let whole = format!("{cross}.{zone}");
        let about = vec![whole.clone(), cross, mother];
        let what = What::Pollinated {
            zone: whole.clone(),
            seed: registry.code_of(seed),
            pollen: father.words(),
            is_open: matches!(father, Father::Open(_)),
            envelope,
            flowers: self.flowers,
            again: again.is_some(),
        };
        let tag = Some(whole).filter(|_| again.is_none());
        let recorded = Recorded::of(what, about, on.text).tag(tag, "tag");
        Ok(recorded.remarks(remarks))
    }

    /// Refuses a spike that the plant, or the piece that is named, does not have, and flowers that were not open.
    fn open_spike(
        &self,
        registry: &Registry,
        seed: PlantOrRamet,
        on: When,
    ) -> Result<Vec<Words>, Slip> {
        let spike = self.spike.as_deref();
        if let Some(spike) = spike {
            spike_named(registry, seed, spike)?;
        }
        let plant = registry.code_of(seed);
        let done = format!("{plant} was pollinated {}", at_date(&days(on)));
        let remark = open_then(registry, seed, (spike, on), done, true)?;
        Ok(remark.into_iter().collect())
    }

    /// Whether pollen of one of several plants may go on a page, all of whose seeds have the same father: it is that of a zone
    /// which is dusted again, or it was used on the day of another zone.
    fn may_share_father(
        &self,
        registry: &Registry,
        page: &CrossPage,
        (father, on): (&Father, &Dated),
    ) -> bool {
        let same_day = |day: &str| day == on.text || registry.when(day) == on.when;
        let zone = self.zone.as_deref();
        !matches!(father, Father::OneOf(_))
            || page
                .pollinations
                .iter()
                .any(|known| zone == Some(known.zone) || known.on.iter().any(|day| same_day(day)))
    }

    /// The page of a pair and year that has none yet.
    fn page(&self, cross: &str, parents: String, pollination: String) -> RonRecord {
        RonRecord::new()
            .text("code", cross)
            .value("parents", parents)
            .value("confidence", "witnessed")
            .text_if("goal", self.goal.as_ref())
            .value("pollinations", lines(&[pollination]))
    }

    /// The zone's code: as given, else the only one when it is dusted again by the same line, else the next letter.
    fn zone(&self, registry: &Registry, found: Option<CrossRow>) -> Result<String, Slip> {
        let zones = found.into_iter().flat_map(|cross| registry.zones(cross));
        let taken: Vec<&str> = zones.map(|(_, known)| known.zone).collect();
        if let Some(zone) = &self.zone {
            if !is_new_code(zone) {
                return Err(Slip::bad_code("zone", zone));
            }
            let like_it = |known: &&str| known.eq_ignore_ascii_case(zone);
            return match taken.iter().copied().find(like_it) {
                Some(known) if !taken.contains(&zone.as_str()) => Err(Slip::contradicts(
                    format!("zone `{zone}` was named"),
                    format!("zone `{known}` is on record, which differs only in capitals"),
                    words!(
                        "name it as on its tag, {}{known}, or give another word";
                        Words::or("--zone ", "")
                    ),
                )),
                _ => Ok(zone.clone()),
            };
        }
        let letters = (b'A'..=b'Z').map(|letter| char::from(letter).to_string());
        let free = letters
            .into_iter()
            .find(|zone| !taken.contains(&zone.as_str()));
        free.ok_or_else(|| {
            Slip::missing(
                "the zone",
                Words::or(
                    "--zone and a word for it, such as --zone red",
                    "“Zone” with a word for it, such as red",
                ),
            )
        })
    }

    fn pollination(
        &self,
        registry: &Registry,
        seed: PlantOrRamet,
        zone: &str,
        (on, envelope): (&Dated, Option<&str>),
    ) -> String {
        RonRecord::new()
            .text("zone", zone)
            .text_if("plant", seed.ramet.map(|_| registry.code_of(seed)))
            .text_if("spike", self.spike.as_ref())
            .value("on", texts([&on.text]))
            .text_if("pollen", envelope)
            .value_if("flowers", self.flowers)
            .value_if("covered", self.covered.then_some("true"))
            .value_if("control_flowers", self.controls)
            .text_if("note", self.remarks(registry))
            .line()
    }
}

/// That a cross begins although there is one of the same plants.
fn of_its_own(registry: &Registry, other: CrossRow) -> Words {
    let of_day = registry[other].page.code;
    words!(
        "This is a new cross: its father may be another plant than the father of {of_day}, which was pollinated on another day. If all the pollen is of one plant, record one envelope of it and use that for both days{}";
        Words::or(": podbook collect", ", recorded under “Pollen collected” on the page of the plant")
    )
}

/// The pages of a pair and a year.
fn pages_of(registry: &Registry, mother: &str, father: &Father, year: i32) -> Vec<CrossRow> {
    let prefix = format!("X{:02}-", year.rem_euclid(100));
    let is = |cross: &CrossRow| {
        let page = &registry[*cross].page;
        let pair = pair_of(registry, &page.parents);
        page.code.starts_with(&prefix)
            && pair.is_some_and(|(seed, pollen)| seed == mother && pollen == *father)
    };
    registry.cross_rows().filter(is).collect()
}
