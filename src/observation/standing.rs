//! What is recorded of one plant, in words: what became of it, when it was last read.

use super::presence::is_over;
use super::stock_take::is_remark;
use crate::record::{Day, Fate, Ramet, When};
use crate::registry::{PlantRow, Registry};
use crate::wording::days;

pub use crate::observation::{Presence, SexSeen, end_of, pieces_here, presence, sex_seen};

/// A fate in words: `died 2023-05 (rot)`.
pub fn fate_words(fate: &Fate) -> String {
    let why = match fate {
        Fate::Died { cause: why, .. }
        | Fate::Culled { reason: why, .. }
        | Fate::Lost { note: why, .. } => why.as_deref(),
        Fate::Sold { .. } | Fate::Given { .. } | Fate::Elsewhere => None,
    };
    match why {
        Some(why) => format!("{} ({why})", fate_and_day(fate)),
        None => fate_and_day(fate),
    }
}

/// The same of seed: `spoilt 2023-05 (mould)`.
pub fn seed_fate_words(fate: &Fate) -> String {
    let words = fate_words(fate);
    match fate {
        Fate::Died { .. } => words.replacen("died", "spoilt", 1),
        Fate::Culled { .. } => words.replacen("culled", "thrown out", 1),
        _ => words,
    }
}

/// A fate in words without its day and reason: `died`.
pub fn fate_word(fate: &Fate) -> &'static str {
    match fate {
        Fate::Died { .. } => "died",
        Fate::Culled { .. } => "culled",
        Fate::Sold { .. } => "sold",
        Fate::Given { .. } => "given away",
        Fate::Lost { .. } => "lost",
        Fate::Elsewhere => "another grower's, never here",
    }
}

/// A fate in words without its reason: `died 2023-05`.
pub fn fate_and_day(fate: &Fate) -> String {
    let word = fate_word(fate);
    match (fate, fate.on()) {
        (Fate::Elsewhere, _) => word.to_owned(),
        (_, "?") => format!("{word}{DAY_NOT_KNOWN}"),
        (_, on) => format!("{word} {on}"),
    }
}

/// What stands for the day where the record has `?`.
pub const DAY_NOT_KNOWN: &str = ", day not known";

/// The status of a plant or a piece of it: its `fate`, if that has come; else whether it is here.
pub fn status_words(fate: Option<&Fate>, is_here: bool) -> String {
    match (fate, is_here) {
        (Some(fate), _) => fate_words(fate),
        (None, true) => "in the collection".to_owned(),
        (None, false) => EVERY_PIECE_GONE.to_owned(),
    }
}

/// What is said of a plant that the stock-take of a day did not find.
pub fn not_found_words(on: When) -> String {
    match on.first == on.last {
        true => format!("not found on {}", days(on)),
        false => format!("not found, {}", days(on)),
    }
}

/// What is said of a plant without a fate of its own that is no longer here.
pub const EVERY_PIECE_GONE: &str = "every piece gone";

/// What became of a plant, or of one piece of it, that is no longer here; `None` while it is.
pub fn departed(
    registry: &Registry,
    plant: PlantRow,
    piece: Option<&Ramet>,
    today: Day,
) -> Option<String> {
    let fate = piece.and_then(|piece| piece.fate.as_ref());
    let fate = fate.filter(|fate| is_over(registry, fate, today));
    let is_here = presence(registry, plant, today) == Presence::Here;
    match (fate, is_here) {
        (None, true) => None,
        (fate, _) => Some(status_words(fate.or(registry.fate(plant)), false)),
    }
}

/// When a plant was last read; `None` when never. A remark, such as that a stock-take did not find it, reads nothing.
pub fn last_read(registry: &Registry, plant: PlantRow) -> Option<When> {
    let readings = registry.readings.of(plant);
    let dates = readings
        .filter(|reading| !is_remark(&registry[reading.sitting], reading))
        .map(|reading| registry.when(registry[reading.sitting].sitting.on));
    latest(dates)
}

/// The latest of some days. One without a known end may be later than any other, so that the latest with an end is then the
/// first that it may be; without a day at all it is not known.
pub fn latest(days: impl Iterator<Item = When>) -> Option<When> {
    let (mut dated, mut open): (Option<When>, Option<When>) = (None, None);
    for day in days {
        let of_kind = if day.last == Day::LAST {
            &mut open
        } else {
            &mut dated
        };
        let later = |other: &When| (day.last, day.first) > (other.last, other.first);
        if of_kind.as_ref().is_none_or(later) {
            *of_kind = Some(day);
        }
    }
    match (dated, open) {
        (Some(dated), Some(open)) => Some(When {
            first: dated.first.max(open.first),
            last: Day::LAST,
        }),
        (dated, open) => dated.or(open),
    }
}
