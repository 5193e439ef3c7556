//! Plants as a grower lists them: `X24-01-7`, `X24-01-3,7`, `X24-01-1..40`, `X24-01-7,9,12..15`.
//!
//! After a comma a bare number belongs to the cross of the code before it. Two dots mean every number between that is on
//! record; an end that is not on record is refused.

use super::dates::Dated;
use super::slip::{Absence, BadRange, Slip};
use super::voice::{Words, day, words};
use crate::observation::presence::{Presence, is_over, presence};
use crate::observation::provenance::sown;
use crate::observation::standing::fate_words;
use crate::record::{Day, Fate};
use crate::registry::{PlantOrRamet, PlantRow, Registry, Target};
use crate::text::one_line;
use crate::wording::{at_date, counted, days};
use std::collections::BTreeSet;
use std::ops::RangeInclusive;

/// Most plants one list may name.
const MOST: u32 = 10_000;

/// The plants and pieces that lists name, in the order they are named.
///
/// # Errors
/// If a code is unknown or names something else, a range runs backwards, or a plant is named twice.
pub fn named(registry: &Registry, lists: &[String]) -> Result<Vec<PlantOrRamet>, Slip> {
    let found = resolved(registry, lists)?;
    Ok(found.into_iter().map(|(named, _)| named).collect())
}

/// Plants and pieces that are here, and how many of a range were left out because they are not.
#[derive(Clone, Debug, Default)]
pub struct Present {
    /// Those that are here.
    pub named: Vec<PlantOrRamet>,
    /// Those of a range that are no longer here.
    pub left_out: usize,
}

impl Present {
    /// What to say of those left out.
    pub fn remarks(&self) -> Vec<Words> {
        let are = match self.left_out {
            0 => return Vec::new(),
            1 => "is",
            _ => "are",
        };
        let plants = counted(self.left_out, "plant", "plants");
        vec![format!("Left out {plants} of the range that {are} no longer here").into()]
    }
}

/// As [`named`], of those that are here on a day, for an event of a date: one that is named for itself and is gone is
/// refused, those of a range that are gone are left out.
///
/// # Errors
/// As [`named`], if one named for itself is gone or all of a range are, or if one was not there yet.
pub fn present(
    registry: &Registry,
    lists: &[String],
    (day, on): (Day, &Dated),
) -> Result<Present, Slip> {
    let mut present = Present::default();
    let mut gone = None;
    for (named, of_range) in resolved(registry, lists)? {
        match here(registry, named, day) {
            Ok(()) => {
                not_before(registry, named, on)?;
                present.named.push(named);
            }
            Err(slip) if of_range => {
                present.left_out += 1;
                gone = Some(slip);
            }
            Err(slip) => return Err(slip),
        }
    }
    match gone.filter(|_| present.named.is_empty()) {
        Some(slip) => Err(slip),
        None => Ok(present),
    }
}

/// As [`present`], of whole plants on the day of an event; with what to say of those left out.
///
/// # Errors
/// As [`present`], or if a piece is named.
pub fn present_plants(
    registry: &Registry,
    lists: &[String],
    on: &Dated,
) -> Result<(Vec<PlantRow>, Vec<Words>), Slip> {
    let present = present(registry, lists, (on.day(), on))?;
    let plants = present.named.iter().map(|one| whole_plant(registry, *one));
    Ok((plants.collect::<Result<_, Slip>>()?, present.remarks()))
}

fn whole_plant(registry: &Registry, named: PlantOrRamet) -> Result<PlantRow, Slip> {
    match named.ramet {
        None => Ok(named.plant),
        Some(_) => Err(Slip::wrong_kind(
            &registry.code_of(named),
            "one piece of a plant",
            "the whole plant",
        )),
    }
}

/// What lists name, each with whether it is one of a range.
fn resolved(registry: &Registry, lists: &[String]) -> Result<Vec<(PlantOrRamet, bool)>, Slip> {
    let mut found = Vec::new();
    for list in lists {
        let mut stem: Option<&str> = None;
        for item in items(list) {
            let bare = item.starts_with(|c: char| c.is_ascii_digit());
            let whole = match stem.filter(|_| bare) {
                Some(stem) => format!("{stem}-{item}"),
                None => item.to_owned(),
            };
            one(registry, &whole, &mut found)?;
            if !bare {
                stem = item.rsplit_once('-').map(|(stem, _)| stem);
            }
        }
    }
    let mut seen = BTreeSet::new();
    if let Some((twice, _)) = found.iter().find(|(named, _)| !seen.insert(*named)) {
        return Err(Slip::bad_range(&registry.code_of(*twice), BadRange::Twice));
    }
    match found.is_empty() {
        true => Err(Slip::bad_range("", BadRange::Empty)),
        false => Ok(found),
    }
}

/// What stands between the commas of a list.
fn items(list: &str) -> impl Iterator<Item = &str> {
    let items = list.split(',').map(str::trim);
    items.filter(|item| !item.is_empty())
}

/// As [`named`], of whole plants only.
///
/// # Errors
/// As [`named`], or if a ramet is named.
pub fn plants(registry: &Registry, lists: &[String]) -> Result<Vec<PlantRow>, Slip> {
    let named = named(registry, lists)?.into_iter();
    named.map(|one| whole_plant(registry, one)).collect()
}

/// The one whole plant that a line is about.
///
/// # Errors
/// As [`plants`], or if a list names several.
pub fn one_plant(registry: &Registry, typed: &str) -> Result<PlantRow, Slip> {
    match plants(registry, &[typed.to_owned()])?.as_slice() {
        [one] => Ok(*one),
        _ => Err(Slip::wrong_kind(
            typed,
            "several plants",
            "one plant: give each a line of its own",
        )),
    }
}

/// The one plant or piece a code names.
///
/// # Errors
/// If it names something else, or nothing.
pub fn single(registry: &Registry, typed: &str) -> Result<PlantOrRamet, Slip> {
    match registry.target(typed) {
        Some(target) => target.plant_or_ramet().ok_or_else(|| {
            Slip::wrong_kind(
                typed,
                kind_words(target),
                "a plant such as Ven1 or X24-01-7",
            )
        }),
        None => Err(Slip::unknown(
            registry,
            "plant",
            typed,
            registry.near_plants(typed),
        )),
    }
}

/// The refusal of what leaves open which of several pieces is meant; `help` says how to name one.
pub fn which_piece<T>(
    registry: &Registry,
    pieces: impl IntoIterator<Item = (PlantOrRamet, T)>,
    help: impl Into<Words>,
) -> Slip {
    let choices = pieces.into_iter().map(|(of, _)| registry.code_of(of));
    Slip::ambiguous("piece", choices.collect(), help)
}

/// The codes of plants and pieces.
pub fn codes<'p>(
    registry: &Registry,
    of: impl IntoIterator<Item = &'p PlantOrRamet>,
) -> Vec<String> {
    let each = of.into_iter().map(|of| registry.code_of(*of));
    each.collect()
}

/// What a code names, in words.
pub fn kind_words(target: Target) -> &'static str {
    match target {
        Target::Plant(_) => "a plant",
        Target::Ramet(..) => "one piece of a plant",
        Target::Cross(_) => "a cross",
        Target::Pod(..) => "a pod",
        Target::Zone(..) => "a zone of a pollination",
        Target::SeedLot(..) => "a seed lot",
        Target::Sowing(..) => "a sowing",
        Target::CommunityPot(..) => "a community pot",
        Target::Pollen(_) => "a pollen lot",
        Target::Species(_) => "a species",
    }
}

/// Refuses a plant, or a piece, that is not in the collection on a day.
///
/// # Errors
/// With what became of it.
pub fn here(registry: &Registry, named: PlantOrRamet, day: Day) -> Result<(), Slip> {
    let ramet = registry.ramet(named);
    let piece = ramet.and_then(|ramet| ramet.fate.as_ref());
    let piece = piece.filter(|fate| is_over(registry, fate, day));
    let gone = presence(registry, named.plant, day) != Presence::Here;
    let whole = registry.fate(named.plant).filter(|_| gone);
    let fate = piece.or(whole);
    if fate.is_none() && !gone {
        return Ok(());
    }
    let none_left = || "none of its pieces is left".to_owned();
    Err(Slip::Gone {
        code: registry.code_of(named),
        fate: fate.map_or_else(none_left, fate_words),
        absence: match fate {
            Some(Fate::Lost { .. }) => Absence::Lost,
            Some(Fate::Elsewhere) => Absence::NeverHere,
            _ => Absence::Ended,
        },
    })
}

/// Refuses a plant, or a piece, that was not in the collection when something is recorded of it: gone by then, or not there
/// yet.
///
/// # Errors
/// As [`here`] and [`not_before`].
pub fn here_then(registry: &Registry, named: PlantOrRamet, on: &Dated) -> Result<(), Slip> {
    here(registry, named, on.day())?;
    not_before(registry, named, on)
}

/// Refuses a date on which a plant was not there yet: before it came, was sown or, for a piece, was cut.
///
/// # Errors
/// With the day it began.
pub fn not_before(registry: &Registry, named: PlantOrRamet, on: &Dated) -> Result<(), Slip> {
    let ramet = registry.ramet(named);
    let cut = ramet
        .and_then(|ramet| ramet.cut)
        .map(|cut| ("was cut", registry.when(cut)));
    let came = registry.founder(named.plant).and_then(|founder| founder.on);
    let came = came.map(|came| ("came", registry.when(came)));
    let seedling = registry.cross_of(named.plant).is_some();
    let sown = seedling.then(|| ("was sown", sown(registry, named.plant)));
    let begun = [cut, came, sown].into_iter().flatten();
    for (how, begun) in begun.filter(|(_, begun)| begun.is_bounded()) {
        if on.when.last != Day::LAST && on.when.surely_before(begun) {
            return Err(Slip::contradicts(
                format!("{} was entered for {}", registry.code_of(named), on.text),
                format!("it {how} {}", at_date(&days(begun))),
                match how {
                    "came" => Words::or(
                        format!(
                            "give a later date, or correct the day it came: `on` of {} in clones.ron (without --on `podbook add` writes the day it is typed)",
                            registry.code(named.plant)
                        ),
                        "give a later date, or correct the day it came in its record",
                    ),
                    _ => words!("give a later date with {}, or name another plant"; day()),
                },
            ));
        }
    }
    Ok(())
}

/// Numbers for new plants: `40`, `1-40`, `1..40`, `7,9,12-15`.
///
/// # Errors
/// If they cannot be read, run backwards, are named twice or are too many.
pub fn numbers(typed: &str) -> Result<Vec<u32>, Slip> {
    let slip = |why| Slip::bad_range(typed, why);
    let mut found = Vec::new();
    for item in items(typed) {
        let (from, to) = match item.split_once("..").or_else(|| item.split_once('-')) {
            Some((from, to)) => (from.trim(), to.trim()),
            None => (item, item),
        };
        let number = |text: &str| text.parse::<u32>().map_err(|_| slip(BadRange::NotNumbers));
        found.extend(range(typed, (number(from)?, number(to)?))?);
    }
    let distinct: BTreeSet<u32> = found.iter().copied().collect();
    if distinct.len() < found.len() {
        return Err(slip(BadRange::Twice));
    }
    match found.is_empty() {
        true => Err(slip(BadRange::Empty)),
        false => Ok(found),
    }
}

/// The numbers from one to another.
fn range(typed: &str, (from, to): (u32, u32)) -> Result<RangeInclusive<u32>, Slip> {
    if from > to {
        return Err(Slip::bad_range(typed, BadRange::Reversed));
    }
    match to - from >= MOST {
        true => Err(Slip::bad_range(typed, BadRange::TooLong)),
        false => Ok(from..=to),
    }
}

/// The refusal of an end of a range that is not on record: with the last number of its cross, if it has some.
fn beyond(registry: &Registry, stem: &str, code: &str) -> Slip {
    let numbers = registry.cross(stem).into_iter().flat_map(|cross| {
        let seedlings = registry[cross].seedlings.iter();
        seedlings.filter_map(|plant| registry.number(*plant)?.parse::<u32>().ok())
    });
    match numbers.max() {
        Some(last) => Slip::nothing(format!(
            "there is no plant `{code}`\nthe numbers of {stem} on record go up to {last}; end the range at one of them"
        )),
        None => Slip::unknown(registry, "plant", code, registry.near_plants(code)),
    }
}

/// The refusal of a range with another sign than two dots: `X22-02-1-4`, `X22-02-1–4`, `X22-02-1…4`.
fn other_sign(registry: &Registry, typed: &str) -> Option<Slip> {
    let (first, last) = typed.rsplit_once(['-', '–', '—', '…'])?;
    let is_number = !last.is_empty() && last.bytes().all(|byte| byte.is_ascii_digit());
    (is_number && registry.seedling_coded(first).is_some()).then(|| {
        Slip::nothing(format!(
            "there is no plant `{}`\nfor all from one number to another write two dots: {first}..{last}",
            one_line(typed)
        ))
    })
}

/// Adds what one code or range names.
fn one(
    registry: &Registry,
    typed: &str,
    found: &mut Vec<(PlantOrRamet, bool)>,
) -> Result<(), Slip> {
    let Some((first, last)) = typed.split_once("..") else {
        let named =
            single(registry, typed).map_err(|slip| other_sign(registry, typed).unwrap_or(slip))?;
        found.push((named, false));
        return Ok(());
    };
    let no_list = || Slip::bad_range(typed, BadRange::NotANumber);
    let (stem, from) = first.rsplit_once('-').ok_or_else(no_list)?;
    let last = last
        .strip_prefix(stem)
        .and_then(|rest| rest.strip_prefix('-'))
        .unwrap_or(last);
    let number = |text: &str| text.trim().parse::<u32>();
    let (Ok(from_number), Ok(to_number)) = (number(from), number(last)) else {
        return Err(no_list());
    };
    let digits = if from.starts_with('0') { from.len() } else { 1 };
    for number in range(typed, (from_number, to_number))? {
        let code = format!("{stem}-{number:0digits$}");
        let ends = number == from_number || number == to_number;
        match registry.plant(&code) {
            Some(plant) => found.push((PlantOrRamet::whole(plant), true)),
            None if ends => return Err(beyond(registry, stem, &code)),
            // A number that could not be read is one of the range all the same.
            None if registry.stands_unread(&code).is_some() => {
                return Err(Slip::unknown(registry, "plant", &code, Vec::new()));
            }
            None => {}
        }
    }
    Ok(())
}
