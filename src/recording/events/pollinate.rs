//! Flowers of one zone of a spike dusted with pollen: one page a pair and year, one record a zone, one date a dusting.

use crate::observation::sex::{SexSeen, sex_seen};
use crate::record::{Day, Parents, PollenSource, Pollination, Sex, When};
use crate::recording::codes::next_cross;
use crate::recording::dates::{Dated, dated};
use crate::recording::draft::Draft;
use crate::recording::page::FieldChange;
use crate::recording::plants::{Named, code, here, kind_words, not_before, single};
use crate::recording::recorded::{Recorded, Remark, Tag, What};
use crate::recording::slip::Slip;
use crate::recording::written::{RonRecord, lines, text, texts};
use crate::registry::ids::is_code;
use crate::registry::{Registry, Target};
use crate::wording::days;

/// Days that flowers of one spike last at most, where their end is not on record (common practice, no source).
pub(super) const LASTS: i32 = 60;

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

/// Pollen as it is given on the command line.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum GivenPollen {
    /// An envelope, or a plant in flower.
    With(String),
    /// One of several plants, not known which.
    OneOf(Vec<String>),
    /// Several plants' pollen together.
    Mixed(Vec<String>),
    /// Pollen from anywhere; these were shedding near it.
    Open(Vec<String>),
}

/// Who gave the pollen, as a page says it.
#[derive(Clone, PartialEq, Eq, Debug)]
enum Father {
    Known(String),
    OneOf(Vec<String>),
    Mixed(Vec<String>),
    Open(Vec<String>),
    Unknown,
}

impl Pollinate {
    /// Writes the pollination on the page of its pair and year, which is begun when there is none.
    ///
    /// # Errors
    /// If a parent is unknown, gone or of the other sex, the envelope is finished, or the zone is of another pollen.
    pub fn record(&self, draft: &mut Draft) -> Result<Recorded, Slip> {
        let registry = draft.registry;
        let on = dated(registry, "--on", self.on.as_deref(), draft.today)?;
        let seed = single(registry, &self.seed)?;
        here(registry, seed, draft.today)?;
        not_before(registry, seed, &on)?;
        not_of_sex(registry, seed, Sex::Male, "the seed parent")?;
        let given = self.pollen.clone().ok_or(Slip::Missing {
            what: "whose pollen it was",
            option: "--with and an envelope or plant, such as --with Spa1-2404; or --one-of, --mixed, --open",
        })?;
        let (father, envelope) = father(draft, given, &on)?;
        if self.flowers == Some(0) {
            return Err(Slip::BadNumber {
                option: "--flowers",
                typed: "0".to_owned(),
                needed: "at least one flower",
            });
        }
        self.known_spike(registry, seed)?;
        let mut remarks = self.open_spike(registry, seed, on.when)?;
        remarks.extend(self.doubts(registry, seed, (envelope.as_deref(), &on)));
        let year = on
            .when
            .first
            .ymd()
            .or(draft.today.ymd())
            .map_or(0, |(year, ..)| year);
        let mother = registry.code(seed.plant);
        let found = page_of(registry, &mother, &father, year);
        let zone = self.zone(registry, found)?;
        let again = found.and_then(|cross| {
            let pollinations = &registry.crosses[cross as usize].page.pollinations;
            pollinations.iter().position(|known| known.zone == zone)
        });
        if let Some(cross) = found {
            self.not_twice(registry, cross, (seed, envelope.as_deref(), &on))?;
        }
        let cross = match found {
            Some(cross) => registry.crosses[cross as usize].page.code.to_owned(),
            None => next_cross(registry, year),
        };
        match (found, again) {
            (Some(cross), Some(at)) => {
                self.same_again(registry, (cross, at), seed, envelope.as_deref())?;
                let add = FieldChange::Push("on", text(&on.text));
                draft.cross(cross).change_at("pollinations", at, &[add])?;
            }
            (Some(cross), None) => {
                let record = self.pollination(registry, seed, &zone, (&on, envelope.as_deref()));
                draft.cross(cross).append("pollinations", &[record])?;
            }
            (None, _) => {
                let record = self.pollination(registry, seed, &zone, (&on, envelope.as_deref()));
                let page = RonRecord::new()
                    .text("code", &cross)
                    .value("parents", parents(&mother, &father))
                    .value("confidence", "witnessed")
                    .text_if("goal", self.goal.as_ref())
                    .value("pollinations", lines(&[record]));
                draft.new_cross(&cross, &page)?;
            }
        }
        let whole = format!("{cross}.{zone}");
        let tag = Tag {
            code: whole.clone(),
            on: "tag",
        };
        Ok(Recorded {
            about: vec![cross, mother],
            tags: if again.is_some() {
                Vec::new()
            } else {
                vec![tag]
            },
            remarks,
            what: What::Pollinated {
                zone: whole,
                seed: code(registry, seed),
                pollen: father.words(),
                envelope,
                flowers: self.flowers,
                on: on.text,
                again: again.is_some(),
            },
        })
    }

    /// The zone's code: as given, else the only one when it is dusted again by the same line, else the next letter.
    fn zone(&self, registry: &Registry, found: Option<u32>) -> Result<String, Slip> {
        if let Some(zone) = &self.zone {
            return match is_code(zone) {
                true => Ok(zone.clone()),
                false => Err(Slip::BadCode {
                    what: "zone",
                    code: zone.clone(),
                }),
            };
        }
        let taken: Vec<&str> = found
            .map(|cross| &registry.crosses[cross as usize].page.pollinations)
            .into_iter()
            .flatten()
            .map(|known| known.zone)
            .collect();
        let letters = (b'A'..=b'Z').map(|letter| char::from(letter).to_string());
        let free = letters
            .into_iter()
            .find(|zone| !taken.contains(&zone.as_str()));
        free.ok_or(Slip::Missing {
            what: "the zone",
            option: "--zone and a word for it, such as --zone red",
        })
    }

    fn pollination(
        &self,
        registry: &Registry,
        seed: Named,
        zone: &str,
        (on, envelope): (&Dated, Option<&str>),
    ) -> String {
        RonRecord::new()
            .text("zone", zone)
            .text_if("plant", seed.ramet.map(|_| code(registry, seed)))
            .text_if("spike", self.spike.as_ref())
            .value("on", texts([&on.text]))
            .text_if("pollen", envelope)
            .value_if("flowers", self.flowers)
            .value_if("covered", self.covered.then_some("true"))
            .value_if("control_flowers", self.controls)
            .text_if("note", self.note.as_ref())
            .line()
    }

    /// Refuses a spike that the plant does not have.
    fn known_spike(&self, registry: &Registry, seed: Named) -> Result<(), Slip> {
        let Some(spike) = &self.spike else {
            return Ok(());
        };
        let flowerings = registry.flowerings(seed.plant);
        let known: Vec<&str> = flowerings
            .iter()
            .filter_map(|flowering| flowering.code)
            .collect();
        match known.contains(&spike.as_str()) {
            true => Ok(()),
            false => Err(Slip::Unknown {
                what: "spike",
                code: spike.clone(),
                near: known.into_iter().map(str::to_owned).collect(),
            }),
        }
    }

    /// Refuses a day on which the flowers on record were not open; says so when none are on record for it.
    fn open_spike(&self, registry: &Registry, seed: Named, on: When) -> Result<Vec<Remark>, Slip> {
        let near = |day: Day| {
            day.0 >= on.first.0.saturating_sub(200) && day.0 <= on.last.0.saturating_add(200)
        };
        let mut closed = None;
        for flowering in registry.flowerings(seed.plant) {
            if self.spike.is_some() && self.spike.as_deref() != flowering.code {
                continue;
            }
            let date = |text: Option<&str>| {
                text.map(|text| registry.when(text))
                    .filter(|when| when.last != Day::LAST)
            };
            let (seen, opened, over) = (
                date(flowering.spike),
                date(flowering.opened),
                date(flowering.over),
            );
            let last = over
                .map(|over| over.last)
                .or(opened.map(|opened| Day(opened.last.0 + LASTS)));
            match (opened, last) {
                (Some(opened), Some(last)) if opened.first <= on.last && on.first <= last => {
                    return Ok(Vec::new());
                }
                (Some(opened), _) if self.spike.is_some() || near(opened.last) => {
                    closed = Some(match over {
                        Some(over) if opened.is_bounded() => format!(
                            "its flowers were open from {} to {}",
                            opened.first, over.last
                        ),
                        Some(over) => format!("its flowers were over by {}", over.last),
                        None => format!("its first flower opened on {}", days(opened)),
                    });
                }
                (None, _) if seen.is_some_and(|seen| near(seen.last)) => {
                    closed = Some("its spike is on record without an open flower".to_owned());
                }
                _ => {}
            }
        }
        match closed {
            Some(recorded) => Err(Slip::Contradicts {
                asked: format!("{} was pollinated on {}", code(registry, seed), days(on)),
                recorded,
                help: format!(
                    "give the day with --on, or record the flowers first: podbook flower {} --opened DATE",
                    code(registry, seed)
                ),
            }),
            None => Ok(vec![Remark::NoSpike {
                plant: code(registry, seed),
            }]),
        }
    }

    /// Refuses the same flowers on the same day once more: a line that was given twice.
    fn not_twice(
        &self,
        registry: &Registry,
        cross: u32,
        (seed, envelope, on): (Named, Option<&str>, &Dated),
    ) -> Result<(), Slip> {
        let page = &registry.crosses[cross as usize].page;
        let piece = seed.ramet.map(|_| code(registry, seed));
        let same = |known: &&Pollination| {
            let zone = self.zone.as_deref().is_none_or(|zone| zone == known.zone);
            let day = |day: &&str| {
                *day == on.text || (on.when.is_exact() && registry.when(day) == on.when)
            };
            zone && known.on.iter().any(|text| day(&&**text))
                && known.pollen == envelope
                && known.spike == self.spike.as_deref()
                && known.plant == piece.as_deref()
        };
        let Some(known) = page.pollinations.iter().find(same) else {
            return Ok(());
        };
        Err(Slip::Contradicts {
            asked: format!("{} was pollinated on {}", code(registry, seed), on.text),
            recorded: format!("{}.{} is on record for that day already", page.code, known.zone),
            help: "if these are other flowers, name their zone with --zone, such as --zone upper; if the day is wrong, give it with --on"
                .to_owned(),
        })
    }

    /// Refuses what contradicts the record of a zone that is dusted again.
    fn same_again(
        &self,
        registry: &Registry,
        (cross, at): (u32, usize),
        seed: Named,
        envelope: Option<&str>,
    ) -> Result<(), Slip> {
        let page = &registry.crosses[cross as usize].page;
        let known: &Pollination = &page.pollinations[at];
        let zone = format!("{}.{}", page.code, known.zone);
        let other = |asked: String, recorded: String| Slip::Contradicts {
            asked,
            recorded,
            help: "name another zone with --zone".to_owned(),
        };
        let piece = seed.ramet.map(|_| code(registry, seed));
        if let (Some(asked), Some(plant)) = (piece, known.plant)
            && asked != plant
        {
            return Err(other(
                format!("zone {zone} was asked for on {asked}"),
                format!("it is on {plant}"),
            ));
        }
        if let (Some(asked), Some(spike)) = (self.spike.as_deref(), known.spike)
            && asked != spike
        {
            return Err(other(
                format!("zone {zone} was asked for on spike {asked}"),
                format!("it is on spike {spike}"),
            ));
        }
        if envelope != known.pollen {
            let words = |pollen: Option<&str>| pollen.unwrap_or("pollen of no envelope").to_owned();
            return Err(other(
                format!("zone {zone} was to be dusted with {}", words(envelope)),
                format!("it was dusted with {}", words(known.pollen)),
            ));
        }
        match (self.flowers, known.flowers) {
            (Some(asked), Some(flowers)) if asked != flowers => Err(other(
                format!("zone {zone} was asked for with {asked} flowers"),
                format!("{flowers} are on record"),
            )),
            _ => Ok(()),
        }
    }
}

/// Refuses a parent seen to be of a sex, on open flowers, that it cannot have.
fn not_of_sex(registry: &Registry, named: Named, sex: Sex, role: &str) -> Result<(), Slip> {
    let (word, needed) = match sex {
        Sex::Male => ("male", "only a female bears pods"),
        Sex::Female => ("female", "only a male gives pollen"),
    };
    match sex_seen(registry, named.plant) {
        SexSeen::Certain(seen) if seen == sex => Err(Slip::Contradicts {
            asked: format!("{} was named as {role}", code(registry, named)),
            recorded: format!("its open flowers were {word}"),
            help: format!("{needed}; look at the tag, or correct the record of its flowers"),
        }),
        _ => Ok(()),
    }
}

/// The father, and the envelope if pollen came out of one.
fn father(draft: &Draft, given: GivenPollen, on: &Dated) -> Result<(Father, Option<String>), Slip> {
    let registry = draft.registry;
    let male = |typed: &str| male(registry, typed, (draft.today, on));
    let males = |typed: &[String]| {
        typed
            .iter()
            .map(|typed| male(typed))
            .collect::<Result<Vec<_>, _>>()
    };
    let several = |typed: &[String], option| match typed.len() {
        0 | 1 => Err(Slip::Missing {
            what: "a second plant",
            option,
        }),
        _ => males(typed),
    };
    Ok(match given {
        GivenPollen::OneOf(typed) => (
            Father::OneOf(several(
                &typed,
                "--one-of with at least two plants, such as --one-of Spa1,Spa2",
            )?),
            None,
        ),
        GivenPollen::Mixed(typed) => (
            Father::Mixed(several(
                &typed,
                "--mixed with at least two plants, such as --mixed Spa1,Tru1",
            )?),
            None,
        ),
        GivenPollen::Open(near) => (Father::Open(males(&near)?), None),
        GivenPollen::With(typed) => match registry.target(&typed) {
            Some(Target::Pollen(lot)) => {
                let lot = &registry.pollen[lot as usize];
                if let Some(finished) = lot.finished {
                    return Err(Slip::Contradicts {
                        asked: format!("pollen of {} was asked for", lot.code),
                        recorded: format!("the envelope has been finished since {finished}"),
                        help: "name another envelope or the plant itself, or correct the record of the envelope".to_owned(),
                    });
                }
                if let Some(collected) = lot.collected
                    && on.when.surely_before(registry.when(collected))
                {
                    return Err(Slip::Contradicts {
                        asked: format!("pollen of {} was used on {}", lot.code, on.text),
                        recorded: format!("it was collected on {collected}"),
                        help: "give a later date with --on, or name another envelope".to_owned(),
                    });
                }
                (of_envelope(registry, &lot.from), Some(lot.code.to_owned()))
            }
            Some(Target::Plant(_) | Target::Ramet(..)) => (Father::Known(male(&typed)?), None),
            Some(other) => {
                return Err(Slip::WrongKind {
                    code: typed,
                    is: kind_words(other),
                    needed: "an envelope of pollen or a plant, such as --with Spa1-2404",
                });
            }
            None => {
                return Err(Slip::Unknown {
                    what: "pollen lot or plant",
                    near: registry.near(&typed),
                    code: typed,
                });
            }
        },
    })
}

/// The code of a plant that gives pollen now.
fn male(registry: &Registry, typed: &str, (today, on): (Day, &Dated)) -> Result<String, Slip> {
    let named = single(registry, typed)?;
    here(registry, named, today)?;
    not_before(registry, named, on)?;
    not_of_sex(registry, named, Sex::Female, "the pollen parent")?;
    Ok(registry.code(named.plant))
}

/// Who filled an envelope. A plant may be gone by now, and a code may be that of a species.
fn of_envelope(registry: &Registry, source: &PollenSource) -> Father {
    let plant = |code: &&str| match registry.target(code) {
        Some(Target::Plant(plant) | Target::Ramet(plant, _)) => registry.code(plant),
        _ => (*code).to_owned(),
    };
    match source {
        PollenSource::Plant(code) => Father::Known(plant(code)),
        PollenSource::OneOf(codes) => Father::OneOf(codes.iter().map(plant).collect()),
        PollenSource::Mixed(codes) => Father::Mixed(codes.iter().map(plant).collect()),
        PollenSource::Unknown => Father::Unknown,
    }
}

/// The page of a pair and a year, if there is one.
fn page_of(registry: &Registry, mother: &str, father: &Father, year: i32) -> Option<u32> {
    let prefix = format!("X{:02}-", year.rem_euclid(100));
    let is = |cross: &u32| {
        let page = &registry.crosses[*cross as usize].page;
        let pair = pair_of(registry, &page.parents);
        page.code.starts_with(&prefix)
            && pair.is_some_and(|(seed, pollen)| seed == mother && pollen == *father)
    };
    (0..registry.crosses.len() as u32).find(is)
}

/// Mother and father of a page whose mother is one plant.
fn pair_of(registry: &Registry, parents: &Parents) -> Option<(String, Father)> {
    let plant = |code: &str| match registry.target(code) {
        Some(Target::Plant(plant) | Target::Ramet(plant, _)) => registry.code(plant),
        _ => code.to_owned(),
    };
    let plants = |codes: &[&str]| codes.iter().map(|code| plant(code)).collect();
    Some(match parents {
        Parents::Known { seed, pollen } => (plant(seed), Father::Known(plant(pollen))),
        Parents::PollenOneOf { seed, pollen, .. } => (plant(seed), Father::OneOf(plants(pollen))),
        Parents::PollenMixed { seed, pollen, .. } => (plant(seed), Father::Mixed(plants(pollen))),
        Parents::Open { seed, near } => (plant(seed), Father::Open(plants(near))),
        Parents::PollenUnknown { seed } => (plant(seed), Father::Unknown),
        _ => return None,
    })
}

/// The parents as RON.
fn parents(mother: &str, father: &Father) -> String {
    let seed = RonRecord::new().text("seed", mother);
    match father {
        Father::Known(pollen) => seed.text("pollen", pollen).named("known"),
        Father::OneOf(pollen) => seed.value("pollen", texts(pollen)).named("pollen_one_of"),
        Father::Mixed(pollen) => seed.value("pollen", texts(pollen)).named("pollen_mixed"),
        Father::Open(near) if near.is_empty() => seed.named("open"),
        Father::Open(near) => seed.value("near", texts(near)).named("open"),
        Father::Unknown => seed.named("pollen_unknown"),
    }
}

impl Father {
    fn words(&self) -> String {
        match self {
            Father::Known(code) => code.clone(),
            Father::OneOf(codes) => format!("one of {}", codes.join(", ")),
            Father::Mixed(codes) => format!("a mixture of {}", codes.join(", ")),
            Father::Open(near) if near.is_empty() => "open pollination".to_owned(),
            Father::Open(near) => format!("open pollination, near {}", near.join(", ")),
            Father::Unknown => "pollen of an unknown plant".to_owned(),
        }
    }
}
