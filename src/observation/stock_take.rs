//! What a stock-take says of a plant: that it was found, or that it, or a piece of it, was not. That is no reading of the plant,
//! and no other remark is.

use crate::lineage::PlantRow;
use crate::record::{Day, When};
use crate::registry::{Column, Reading, Registry, SittingHead};

/// What a stock-take is called where sittings say how they were made.
pub const STOCK_TAKE: &str = "stock-take";

/// What is written of a plant that was not found, nor any piece of it.
pub const NOT_FOUND: &str = "not found";

/// Whether a cell of a sitting is a remark, which reads nothing of its plant.
pub fn is_remark(head: &SittingHead, reading: &Reading) -> bool {
    head.columns.get(usize::from(reading.column)) == Some(&Column::Note)
}

/// Whether a cell of a sitting is the note of a stock-take, which may say that its plant was not found.
pub fn is_note_of_stock_take(head: &SittingHead, reading: &Reading) -> bool {
    head.sitting.method.as_deref() == Some(STOCK_TAKE) && is_remark(head, reading)
}

/// The days of the remarks on a plant but those of stock-takes: whoever wrote one saw it.
pub fn remarked_on(registry: &Registry, plant: PlantRow) -> impl Iterator<Item = When> {
    let readings = registry.readings.of(plant);
    readings.filter_map(|reading| {
        let head = &registry[reading.sitting];
        let is_seen = is_remark(head, &reading) && !is_note_of_stock_take(head, &reading);
        is_seen.then(|| registry.when(head.sitting.on))
    })
}

/// When a stock-take last looked for a plant by a day, and whether it found any of it; `None` if none did. One that missed
/// some piece, and does not say of the others, says neither.
pub fn last_look(registry: &Registry, plant: PlantRow, today: Day) -> Option<(When, bool)> {
    let rows = registry.readings.rows_of(plant);
    let looks = rows.filter_map(|(at, mut cells)| {
        let head = &registry[at];
        let on = registry.when(head.sitting.on);
        let is_look = head.sitting.method.as_deref() == Some(STOCK_TAKE) && on.first <= today;
        if !is_look {
            return None;
        }
        let missed = cells.find_map(|cell| {
            let note = head.text(registry.sources, &cell);
            note.ends_with(NOT_FOUND).then(|| note == NOT_FOUND)
        });
        match missed {
            Some(false) => None,
            missed => Some((on, missed.is_none())),
        }
    });
    looks.max_by_key(|(on, found)| (on.last, *found))
}
