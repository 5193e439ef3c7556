//! The next free codes: of a founder, a cross, a part of a cross, a ramet, a spike, an envelope.

use super::slip::Slip;
use crate::record::{Day, Flowering};
use crate::registry::ids::{is_new_code, is_ramet_code};
use crate::registry::{Registry, Target};
use crate::text::composed;
use crate::wording::letters;
use std::collections::BTreeSet;

/// Refuses a code that something has already.
///
/// # Errors
/// With what has it.
pub fn is_free(registry: &Registry, code: &str) -> Result<(), Slip> {
    let what = match registry.target(code) {
        None | Some(Target::Species(_)) => return Ok(()),
        Some(Target::Plant(_)) => "plant",
        Some(Target::Ramet(..)) => "piece",
        Some(Target::Cross(_)) => "cross",
        Some(Target::Pollen(_)) => "pollen lot",
        Some(_) => "part of a cross",
    };
    Err(Slip::taken(what, code))
}

/// The code that a grower gives, or the next free one.
///
/// # Errors
/// If it cannot be the code of such a thing, or as [`can_be_given`].
pub fn given_or(
    registry: &Registry,
    (what, code): (&str, Option<&str>),
    next: impl FnOnce() -> String,
) -> Result<String, Slip> {
    let Some(code) = code else {
        return Ok(next());
    };
    if !is_new_code(code) {
        return Err(Slip::bad_code(what, code));
    }
    can_be_given(registry, code)?;
    Ok(code.to_owned())
}

/// Refuses a code that a grower gives when something has it already, in whichever form its letters are spelt, or when it
/// differs from that of a plant or cross only in capitals: two such tags are easily taken for each other.
///
/// # Errors
/// With what has it.
pub fn can_be_given(registry: &Registry, code: &str) -> Result<(), Slip> {
    is_free(registry, code)?;
    let founders = registry.founders().iter().map(|founder| founder.code);
    let crosses = registry.all_crosses().map(|(_, cross)| cross.page.code);
    let known = founders.chain(crosses).map(str::to_owned);
    let seedling = seedling_like(registry, &folded(code));
    is_unlike(code, known.chain(seedling))
}

/// Refuses a new code that differs from a known one only in capitals.
///
/// # Errors
/// With the known one.
pub fn is_unlike(code: &str, mut known: impl Iterator<Item = String>) -> Result<(), Slip> {
    let lower = folded(code);
    match known.find(|other| folded(other) == lower) {
        None => Ok(()),
        Some(other) => Err(Slip::contradicts(
            format!("{code} was to be a new code"),
            format!("{other} is on record and differs from it only in capitals"),
            "give a code that is not so easily taken for it",
        )),
    }
}

fn folded(code: &str) -> String {
    composed(code.to_lowercase())
}

/// That a code for a plant that came reads as a seedling of a cross or a piece of a plant on record, in one sentence.
pub fn reads_as_another(registry: &Registry, code: &str) -> Option<String> {
    let (stem, rest) = code.rsplit_once('-')?;
    let as_what = match registry.target(stem)? {
        Target::Cross(_) if rest.starts_with(|c: char| c.is_ascii_digit()) => {
            format!("seedling {rest} of {stem}")
        }
        Target::Plant(_) if is_ramet_code(rest) => format!("piece {rest} of {stem}"),
        _ => return None,
    };
    Some(format!(
        "{code} reads as {as_what}, which it is not: a code of its own is safer on a tag"
    ))
}

/// The seedling whose code is this one but for capitals.
fn seedling_like(registry: &Registry, lower: &str) -> Option<String> {
    let (cross, number) = lower.rsplit_once('-')?;
    let of_cross = registry.all_crosses();
    let mut of_cross = of_cross.filter(|(_, of)| folded(of.page.code) == cross);
    let seedlings = of_cross.find_map(|(_, of)| {
        let mut seedlings = of.seedlings.iter();
        seedlings.find(|plant| registry.number(**plant) == Some(number))
    });
    seedlings.map(|plant| registry.code(*plant))
}

/// A founder's code from the name it came under: three letters of the species and a number, `Ven2` after `Ven1`.
pub fn free_founder_code(registry: &Registry, name: &str) -> String {
    let stem = code_stem(name);
    next_number(
        |number| format!("{stem}{number}"),
        |code| registry.target(code).is_none(),
    )
}

/// The letters before the number in a founder's code.
pub fn code_stem(name: &str) -> String {
    let words = name.split(|c: char| !c.is_alphabetic());
    let words = words
        .filter(|word| word.chars().count() > 2 && !matches!(*word, "var" | "aff" | "Nepenthes"));
    let stem: String = words
        .take(1)
        .flat_map(|word| word.chars().take(3))
        .collect();
    let mut letters = stem.chars();
    match letters.next() {
        Some(first) => first
            .to_uppercase()
            .chain(letters.flat_map(char::to_lowercase))
            .collect(),
        None => "Plant".to_owned(),
    }
}

/// The code of the next cross of a year: `X24-03` after `X24-02`.
pub fn next_cross(registry: &Registry, year: i32) -> String {
    let year = year.rem_euclid(100);
    let prefix = format!("X{year:02}-");
    let numbers = registry.crosses.iter().filter_map(|cross| {
        let number = cross.page.code.strip_prefix(&prefix)?;
        number.parse::<u32>().ok()
    });
    let first = numbers.max().unwrap_or(0) + 1;
    let code = |number: u32| format!("{prefix}{:02}", first + number - 1);
    next_number(code, |code| registry.target(code).is_none())
}

/// The next free code with a letter before it among some: `P2` after `P1`.
pub fn next_part<'a>(letter: char, taken: impl Iterator<Item = &'a str>) -> String {
    let taken: BTreeSet<&str> = taken.collect();
    next_number(
        |number| format!("{letter}{number}"),
        |code| !taken.contains(code),
    )
}

/// The next free code of a piece of a plant: `b` after `a`, `aa` after `z`, without those that make the code of something else.
pub fn next_ramet(registry: &Registry, plant: &str, taken: &[&str]) -> String {
    next_number(
        |number| letters(number as usize - 1),
        |code| !taken.contains(&code) && is_free(registry, &format!("{plant}-{code}")).is_ok(),
    )
}

/// The next free code of a spike of a year: `24b` after `24a`.
pub fn next_spike(flowerings: &[Flowering], year: i32) -> String {
    let taken: BTreeSet<&str> = flowerings.iter().filter_map(|f| f.code).collect();
    let year = year.rem_euclid(100);
    let code = |number: u32| format!("{year:02}{}", letters(number as usize - 1));
    next_number(code, |code| !taken.contains(code))
}

/// The next free code of an envelope: `Spa1-2404`, then `Spa1-2404b`.
pub fn next_envelope(registry: &Registry, plant: &str, day: Day) -> String {
    let (year, month, _) = day.ymd().unwrap_or((0, 1, 1));
    let stem = format!("{plant}-{:02}{month:02}", year.rem_euclid(100));
    let code = |number: u32| match number {
        1 => stem.clone(),
        number => format!("{stem}{}", letters(number as usize - 1)),
    };
    next_number(code, |code| registry.target(code).is_none())
}

fn next_number(code: impl Fn(u32) -> String, is_free: impl Fn(&str) -> bool) -> String {
    let mut codes = (1..).map(code);
    codes.find(|code| is_free(code)).unwrap_or_default()
}
