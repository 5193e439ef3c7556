//! Where a plant and its pieces stand, and which plants stand in a place.

use super::pottings::{last_pot, pots_in_order};
use crate::record::{Day, Made, Ramet};
use crate::registry::{PlantRow, Registry};
use crate::text::composed;

/// The places of a plant by a day, each once: its own, if something may stand there, and those of its pieces; where there
/// are none, that of its last pot.
pub fn places<'r>(registry: &'r Registry, plant: PlantRow, today: Day) -> Vec<&'r str> {
    let own = registry.seedling(plant).and_then(|of| of.place.as_deref());
    let own = own.filter(|_| may_stand_itself(registry, plant));
    let mut places: Vec<&str> = own.into_iter().collect();
    for place in living(registry, plant).filter_map(|piece| piece.place.as_deref()) {
        if !places.contains(&place) {
            places.push(place);
        }
    }
    // A move leaves the record of the last pot as it was.
    if places.is_empty() {
        places.extend(place_of_pot(registry, plant, today));
    }
    places
}

/// The places where flowers of a plant may stand: of the piece that flowers if it is named, else of all that are old
/// enough; a cutting is not before it has rooted. Empty where the place of one of them is not on record, for it may be
/// that one.
pub fn places_of_flowers<'r>(
    registry: &'r Registry,
    plant: PlantRow,
    piece: Option<&str>,
    today: Day,
) -> Vec<&'r str> {
    let all = registry.ramets(plant);
    let own = registry.seedling(plant).and_then(|of| of.place.as_deref());
    let of_plant = own.or_else(|| place_of_pot(registry, plant, today));
    let may_flower = |of: &&Ramet| match piece {
        Some(named) => named == of.code || named.ends_with(&format!("-{}", of.code)),
        None => of.made != Some(Made::Cutting) || of.rooted.is_some(),
    };
    let mut stand: Vec<Option<&str>> = living(registry, plant)
        .filter(may_flower)
        .map(|of| of.place.as_deref())
        .collect();
    // The plant itself need not be listed among its pieces.
    if piece.is_none() && !all.iter().any(is_original) {
        stand.push(of_plant);
    }
    if let [only @ None] = stand.as_mut_slice() {
        *only = of_plant;
    }
    let known: Option<Vec<&str>> = stand.into_iter().collect();
    let mut known = known.unwrap_or_default();
    known.dedup();
    known
}

/// Whether the place on record for the plant as a whole may still be that of a piece: not where the plant itself is listed
/// among its pieces and each that lives has a place of its own.
fn may_stand_itself(registry: &Registry, plant: PlantRow) -> bool {
    let is_listed = registry.ramets(plant).iter().any(is_original);
    let mut living = living(registry, plant).peekable();
    !is_listed || living.peek().is_none() || living.any(|piece| piece.place.is_none())
}

fn is_original(of: &Ramet) -> bool {
    matches!(of.made, Some(Made::Original) | None)
}

/// The pieces without an end on record.
fn living<'r, 't>(
    registry: &'r Registry<'t>,
    plant: PlantRow,
) -> impl Iterator<Item = &'r Ramet<'t>> {
    let pieces = registry.ramets(plant).iter();
    pieces.filter(|piece| piece.fate.is_none())
}

/// The place of the last pot by a day.
fn place_of_pot<'r>(registry: &'r Registry, plant: PlantRow, today: Day) -> Option<&'r str> {
    last_pot(registry, plant, today)?.place.as_deref()
}

/// The one place written beside a plant: its own note, else that of the last of its pots on record, whatever the day; where
/// only pieces with places of their own are left, theirs if it is one.
pub fn place_noted<'r>(registry: &'r Registry, plant: PlantRow) -> Option<&'r str> {
    if !may_stand_itself(registry, plant) {
        let mut of_pieces = living(registry, plant).map(|piece| piece.place.as_deref());
        let first = of_pieces.next()?;
        return first.filter(|_| of_pieces.all(|other| other == first));
    }
    let own = registry.seedling(plant).and_then(|of| of.place.as_deref());
    own.or_else(|| pots_in_order(registry, plant).pop()?.place.as_deref())
}

/// Whether a place is the one asked for or a part of it: `shelf 1, front`, `shelf 1/front` and `shelf 1 front` are in
/// `shelf 1`. A part of `shelf` would need such a sign: `shelf 1` is a shelf of its own, as `shelf 1-2` is.
pub fn is_in(place: &str, asked: &str) -> bool {
    let folded = |words: &str| composed(words.trim().to_lowercase());
    let (place, asked) = (folded(place), folded(asked));
    let Some(rest) = place.strip_prefix(&asked) else {
        return false;
    };
    let part = rest.trim_start();
    let is_parted = part.starts_with([',', ';', ':', '/', '(']) || part.starts_with("- ");
    // Behind a number a word says where in the place; behind a word it may name another place.
    let is_numbered = asked.ends_with(|c: char| c.is_ascii_digit());
    let is_worded = part.len() < rest.len() && part.starts_with(char::is_alphabetic);
    part.is_empty() || is_parted || (is_numbered && is_worded)
}
