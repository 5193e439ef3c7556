//! Where a plant and its pieces stand, and which plants stand in a place.
//!
//! The place on record for a plant, and that of its pots, is that of the plant as it came or was raised. A piece that was taken
//! off it stands where its own record says, and where that says nothing its place is not known.

use super::pottings::{last_pot, pots_in_order};
use crate::record::{Day, Made, Ramet};
use crate::registry::{PlantRow, Registry};
use crate::text::composed;
use crate::wording::each_once;

/// The places of a plant by a day, each once: its own, if something may stand there, and those of its pieces; where there
/// are none, that of its last pot.
pub fn places<'r>(registry: &'r Registry, plant: PlantRow, today: Day) -> Vec<&'r str> {
    let own = registry.seedling(plant).and_then(|of| of.place.as_deref());
    let own = own.filter(|_| may_stand_itself(registry, plant));
    let of_pieces = living(registry, plant).filter_map(|piece| piece.place.as_deref());
    let mut places: Vec<&str> = each_once(own.into_iter().chain(of_pieces));
    // A move leaves the record of the last pot as it was.
    if places.is_empty() && may_stand_itself(registry, plant) {
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
    let may_flower = |of: &&Ramet| match piece {
        Some(named) => named == of.code || named.ends_with(&format!("-{}", of.code)),
        None => of.made != Some(Made::Cutting) || of.rooted.is_some(),
    };
    let mut stand: Vec<Option<&str>> = living(registry, plant)
        .filter(may_flower)
        .map(|of| place_of(registry, plant, Some(of), today))
        .collect();
    // The plant itself need not be listed among its pieces.
    if piece.is_none() && !all.iter().any(is_original) {
        stand.push(of_itself(registry, plant, today));
    }
    let known: Option<Vec<&str>> = stand.into_iter().collect();
    let mut known = known.unwrap_or_default();
    known.dedup();
    known
}

/// Where a plant stands, or a piece of it: by its own record, and the plant itself by that of the plant; a plant as a whole
/// where [`place_noted`] says.
pub fn place_of<'r>(
    registry: &'r Registry,
    plant: PlantRow,
    piece: Option<&'r Ramet>,
    today: Day,
) -> Option<&'r str> {
    let Some(piece) = piece else {
        return place_noted(registry, plant);
    };
    let itself = || is_original(piece).then(|| of_itself(registry, plant, today));
    piece.place.as_deref().or_else(|| itself().flatten())
}

/// The place on record for a plant itself: its own, else that of its last pot.
fn of_itself<'r>(registry: &'r Registry, plant: PlantRow, today: Day) -> Option<&'r str> {
    let own = registry.seedling(plant).and_then(|of| of.place.as_deref());
    own.or_else(|| place_of_pot(registry, plant, today))
}

/// Whether a piece stands where the record of its plant says: it is the plant itself, and has no place of its own.
pub fn stands_as_plant(piece: &Ramet) -> bool {
    is_original(piece) && piece.place.is_none()
}

/// Whether one of several living pieces, taken off the plant, has no place on record.
pub fn has_lost_piece(registry: &Registry, plant: PlantRow) -> bool {
    let lost = |piece: &Ramet| !is_original(piece) && piece.place.is_none();
    living(registry, plant).count() > 1 && living(registry, plant).any(lost)
}

/// Whether the place on record for the plant as a whole may still be that of a piece: not where the plant itself is listed
/// among its pieces and has come to an end, or has a place of its own. Where all have ended it is where it stood last.
fn may_stand_itself(registry: &Registry, plant: PlantRow) -> bool {
    let is_listed = registry.ramets(plant).iter().any(is_original);
    let mut living = living(registry, plant).peekable();
    !is_listed || living.peek().is_none() || living.any(|piece| stands_as_plant(piece))
}

/// Whether a piece is the plant itself, as it came or was raised.
pub fn is_original(of: &Ramet) -> bool {
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

/// The place of the last pot by a day; none where the plant left and came back since.
fn place_of_pot<'r>(registry: &'r Registry, plant: PlantRow, today: Day) -> Option<&'r str> {
    let pot = last_pot(registry, plant, today)?;
    let potted = registry.when(pot.on);
    let mut returns = registry.came_back(plant).iter();
    let left_since = returns.any(|back| potted.surely_before(registry.when(back.on)));
    pot.place.as_deref().filter(|_| !left_since)
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
    let pot = || pots_in_order(registry, plant).pop();
    own.or_else(|| place_of_pot(registry, plant, registry.when(pot()?.on).first))
}

/// Whether a place is the one asked for or a part of it: `shelf 1, front`, `shelf 1/front` and `shelf 1 front` are in
/// `shelf 1`. A part of `shelf` would need such a sign: `shelf 1` is a shelf of its own, as `shelf 1-2` is.
pub fn is_in(place: &str, asked: &str) -> bool {
    // A blank that does not break, a tab or two blanks look like one.
    let blanks = |words: &str| words.split_whitespace().collect::<Vec<_>>().join(" ");
    let folded = |words: &str| composed(blanks(words).to_lowercase());
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
