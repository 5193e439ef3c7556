//! What is recorded of one plant, in words: what became of it, when it was last read.

use super::presence::is_over;
use crate::record::{Day, Fate, Ramet, When};
use crate::registry::{PlantRow, Registry};

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

/// A fate in words without its reason: `died 2023-05`.
pub fn fate_and_day(fate: &Fate) -> String {
    let verb = match fate {
        Fate::Died { .. } => "died",
        Fate::Culled { .. } => "culled",
        Fate::Sold { .. } => "sold",
        Fate::Given { .. } => "given away",
        Fate::Lost { .. } => "lost",
        Fate::Elsewhere => return "with another grower".to_owned(),
    };
    format!("{verb} {}", fate.on())
}

/// The status of a plant or a piece of it: its `fate`, if that has come; else whether it is here.
pub fn status_words(fate: Option<&Fate>, is_here: bool) -> String {
    match (fate, is_here) {
        (Some(fate), _) => fate_words(fate),
        (None, true) => "in the collection".to_owned(),
        (None, false) => EVERY_PIECE_GONE.to_owned(),
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

/// When a plant was last read; `None` when never.
pub fn last_read(registry: &Registry, plant: PlantRow) -> Option<When> {
    let dates = registry
        .readings
        .of(plant)
        .map(|reading| registry.when(registry[reading.sitting].sitting.on));
    dates.max_by_key(|when| (when.last, when.first))
}
