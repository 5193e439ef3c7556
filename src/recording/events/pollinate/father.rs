//! Who gave the pollen: as it was typed, as an envelope says it, and as a page of a cross says it.

use crate::observation::sex::{SexSeen, sex_seen};
use crate::record::{Parents, PollenLot, PollenSource, Sex, When};
use crate::recording::dates::Dated;
use crate::recording::draft::Draft;
use crate::recording::plants::{here_then, kind_words, single};
use crate::recording::slip::{BadRange, Slip};
use crate::recording::voice::{Words, day, words};
use crate::recording::written::{RonRecord, texts};
use crate::registry::{PlantOrRamet, PlantRow, Registry, Target};
use crate::wording::{at_date, listed};
use std::collections::BTreeSet;

/// Pollen as it is given on the command line.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum GivenPollen {
    /// An envelope, or a plant in flower.
    With(String),
    /// One of several plants or envelopes, not known which.
    OneOf(Vec<String>),
    /// Pollen of several plants or envelopes together.
    Mixed(Vec<String>),
    /// Pollen from anywhere; these were shedding near it.
    Open(Vec<String>),
}

/// Who gave the pollen, as a page says it. Several plants are the same in any order.
#[derive(Clone, Eq, Debug)]
pub(super) enum Father {
    Known(String),
    OneOf(Vec<String>),
    Mixed(Vec<String>),
    Open(Vec<String>),
    Unknown,
}

/// Refuses a parent seen to be of a sex, on open flowers, that it cannot have.
pub(super) fn not_of_sex(
    registry: &Registry,
    named: PlantOrRamet,
    sex: Sex,
    role: &str,
) -> Result<(), Slip> {
    let needed = match sex {
        Sex::Male => "only a female bears pods",
        Sex::Female => "only a male gives pollen",
    };
    match sex_seen(registry, named.plant) {
        SexSeen::Certain(seen) if seen == sex => Err(Slip::contradicts(
            format!("{} was named as {role}", registry.code_of(named)),
            format!("its open flowers were {}", sex.word()),
            format!("{needed}; look at the tag, or correct the record of its flowers"),
        )),
        _ => Ok(()),
    }
}

/// The father, and the envelope if pollen came out of one.
pub(super) fn father(
    draft: &Draft,
    given: GivenPollen,
    on: &Dated,
) -> Result<(Father, Option<String>), Slip> {
    let registry = draft.registry;
    let male = |typed: &str| male(registry, typed, on);
    let males = |typed: &[String]| -> Result<Vec<String>, Slip> {
        typed.iter().map(|typed| male(typed)).collect()
    };
    let several = |typed: &[String], option: &str, [keyboard, page]: [&str; 2]| {
        if typed.len() < 2 {
            let help = Words::or(
                format!("{option} with at least two plants, such as {option} {keyboard}"),
                format!("“Pollen” with at least two plants, such as {page}"),
            );
            return Err(Slip::missing("a second plant", help));
        }
        let named = typed.iter().map(|typed| giver(registry, typed, on));
        let named: Vec<String> = named.collect::<Result<_, Slip>>()?;
        let mut seen = BTreeSet::new();
        match named.iter().find(|code| !seen.insert(code.as_str())) {
            Some(twice) => Err(Slip::bad_range(twice, BadRange::Twice)),
            None => Ok(named),
        }
    };
    let father = match given {
        GivenPollen::OneOf(typed) => {
            let such_as = ["Spa1,Spa2", "Spa1,Spa2"];
            Father::OneOf(several(&typed, "--one-of", such_as)?)
        }
        GivenPollen::Mixed(typed) => {
            let such_as = ["Spa1,Tru1", "Spa1+Tru1"];
            Father::Mixed(several(&typed, "--mixed", such_as)?)
        }
        GivenPollen::Open(near) => Father::Open(males(&near)?),
        GivenPollen::With(typed) => match registry.target(&typed) {
            Some(Target::Pollen(lot)) => {
                let lot = &registry[lot];
                may_be_used(registry, lot, on)?;
                return Ok((of_envelope(registry, &lot.from), Some(lot.code.to_owned())));
            }
            Some(Target::Plant(_) | Target::Ramet(..)) => {
                let known = male(&typed);
                let known = known.map_err(|slip| by_envelope(registry, &typed, (slip, on)));
                Father::Known(known?)
            }
            Some(other) => {
                let needed = words!(
                    "an envelope of pollen or a plant, such as {}Spa1-2404";
                    Words::or("--with ", "")
                );
                return Err(Slip::wrong_kind(&typed, kind_words(other), needed));
            }
            None => {
                let near = registry.near(&typed);
                return Err(Slip::unknown(registry, "pollen lot or plant", &typed, near));
            }
        },
    };
    Ok((father, None))
}

/// Refuses an envelope that is finished, or whose pollen was collected later.
fn may_be_used(registry: &Registry, lot: &PollenLot, on: &Dated) -> Result<(), Slip> {
    let finished = lot.finished.filter(|finished| {
        let finished = registry.when(finished);
        !finished.is_bounded() || !on.when.surely_before(finished)
    });
    if let Some(finished) = finished {
        return Err(Slip::contradicts(
            format!("pollen of {} was asked for", lot.code),
            format!("the envelope has been finished since {finished}"),
            "name another envelope or the plant itself, or correct the record of the envelope",
        ));
    }
    match lot.collected {
        Some(collected) if on.when.surely_before(registry.when(collected)) => {
            Err(Slip::contradicts(
                format!("pollen of {} was used {}", lot.code, at_date(&on.text)),
                format!("it was collected {}", at_date(collected)),
                words!("give a later date with {}, or name another envelope"; day()),
            ))
        }
        _ => Ok(()),
    }
}

/// The code of a plant that gives pollen now.
fn male(registry: &Registry, typed: &str, on: &Dated) -> Result<String, Slip> {
    let named = single(registry, typed)?;
    here_then(registry, named, on)?;
    not_of_sex(registry, named, Sex::Female, "the pollen parent")?;
    Ok(registry.code(named.plant))
}

/// The code of a plant that gave some of the pollen, which may be out of an envelope: of one that is named, or of one in hand of
/// a plant that is not here.
fn giver(registry: &Registry, typed: &str, on: &Dated) -> Result<String, Slip> {
    if let Some(Target::Pollen(lot)) = registry.target(typed) {
        let lot = &registry[lot];
        may_be_used(registry, lot, on)?;
        return match of_envelope(registry, &lot.from) {
            Father::Known(code) => Ok(code),
            _ => Err(Slip::wrong_kind(
                typed,
                "pollen that is not of one known plant",
                "the plants it may be of, or an envelope of one plant",
            )),
        };
    }
    match (male(registry, typed, on), registry.target(typed)) {
        (Err(Slip::Gone { .. }), Some(Target::Plant(plant)))
            if in_hand(registry, plant, on.when).next().is_some() =>
        {
            Ok(registry.code(plant))
        }
        (male, _) => male,
    }
}

/// The refusal of a plant that is not here, by the envelopes of its pollen that are in hand, if there are any.
fn by_envelope(registry: &Registry, typed: &str, (slip, on): (Slip, &Dated)) -> Slip {
    let (Slip::Gone { code, .. }, Some(plant)) = (&slip, registry.plant(typed)) else {
        return slip;
    };
    let lots: Vec<&str> = in_hand(registry, plant, on.when)
        .map(|lot| lot.code)
        .collect();
    match lots.join(" or ") {
        none if none.is_empty() => slip,
        lots => Slip::contradicts(
            format!("fresh pollen of {code} was asked for"),
            "the plant is not here",
            words!("name the envelope of its pollen: {}{lots}"; Words::or("--with ", "")),
        ),
    }
}

/// The envelopes in hand of the pollen of a plant on some day of a date.
pub(super) fn in_hand<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
    on: When,
) -> impl Iterator<Item = &'r PollenLot<'t>> {
    let own = registry.pollen.iter().filter(|lot| lot.told_by.is_none());
    own.filter(move |lot| {
        let is_of = match &lot.from {
            PollenSource::Plant(of) => registry.target(of).and_then(Target::plant) == Some(plant),
            _ => false,
        };
        let day = |text: &str| registry.when(text);
        let begun = lot.collected.is_none_or(|text| day(text).first <= on.last);
        let ended = lot.finished.is_some_and(|text| day(text).surely_before(on));
        is_of && begun && !ended
    })
}

/// Who filled an envelope. A plant may be gone by now, and a code may be that of a species.
pub(super) fn of_envelope(registry: &Registry, source: &PollenSource) -> Father {
    let plant = |code: &&str| plant_or(registry, code);
    match source {
        PollenSource::Plant(code) => Father::Known(plant(code)),
        PollenSource::OneOf(codes) => Father::OneOf(codes.iter().map(plant).collect()),
        PollenSource::Mixed(codes) => Father::Mixed(codes.iter().map(plant).collect()),
        PollenSource::Unknown => Father::Unknown,
    }
}

/// The code of the plant that a code names; that of anything else as it stands.
fn plant_or(registry: &Registry, code: &str) -> String {
    let plant = registry.target(code).and_then(Target::plant);
    plant.map_or_else(|| code.to_owned(), |plant| registry.code(plant))
}

/// Mother and father of a page whose mother is one plant.
pub(super) fn pair_of(registry: &Registry, parents: &Parents) -> Option<(String, Father)> {
    let plant = |code: &str| plant_or(registry, code);
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
pub(super) fn parents(mother: &str, father: &Father) -> String {
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

impl PartialEq for Father {
    fn eq(&self, other: &Father) -> bool {
        let same = |one: &[String], other: &[String]| {
            one.iter().collect::<BTreeSet<_>>() == other.iter().collect()
        };
        match (self, other) {
            (Father::Known(one), Father::Known(other)) => one == other,
            (Father::OneOf(one), Father::OneOf(other))
            | (Father::Mixed(one), Father::Mixed(other))
            | (Father::Open(one), Father::Open(other)) => same(one, other),
            (Father::Unknown, Father::Unknown) => true,
            _ => false,
        }
    }
}

impl Father {
    /// The envelope, or whose pollen it was as it was shed.
    pub(super) fn pollen_words(&self, envelope: Option<&str>) -> String {
        match (envelope, self) {
            (Some(envelope), _) => envelope.to_owned(),
            (None, Father::Known(code)) => format!("fresh pollen of {code}"),
            (None, father) => father.words(),
        }
    }

    pub(super) fn words(&self) -> String {
        match self {
            Father::Known(code) => code.clone(),
            Father::OneOf(codes) => codes.join(" or "),
            Father::Mixed(codes) => format!("a mixture of {}", listed(codes)),
            Father::Open(near) if near.is_empty() => "open pollination".to_owned(),
            Father::Open(near) => format!("open pollination, near {}", near.join(", ")),
            Father::Unknown => "pollen of an unknown plant".to_owned(),
        }
    }
}
