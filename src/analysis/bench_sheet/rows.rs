//! The rows of a sheet and the last reading in each of its columns.

use super::answer::{BenchSheet, ReadAs, SheetColumn, SheetRow};
use crate::lineage::PlantRow;
use crate::observation::asked_columns::{AskedColumn, asked_column, unit_word};
use crate::observation::kinds_short::shortest;
use crate::observation::last_reading::{LastReading, in_unit, last_reading};
use crate::observation::pieces::pieces_left;
use crate::observation::places::{is_in, places};
use crate::observation::seedling_trays::SeedlingTray;
use crate::record::{Day, Length, Reads};
use crate::registry::{PlantOrRamet, Registry};

/// A sheet to be measured by; of a place with the piece that stands there.
pub fn measuring_sheet(
    registry: &Registry,
    plants: &[PlantRow],
    columns: &[AskedColumn],
    (place, today): (Option<&str>, Day),
) -> BenchSheet {
    let last = |plant: PlantRow| {
        let of = |asked: &AskedColumn| {
            let last = last_reading(registry, plant, asked, &[])?;
            Some(last_words(&last, asked))
        };
        columns.iter().map(of).collect()
    };
    BenchSheet {
        of: Vec::new(),
        place: None,
        columns: columns
            .iter()
            .map(|asked| column(registry, asked))
            .collect(),
        rows: plants
            .iter()
            .map(|&plant| SheetRow {
                last: last(plant),
                ..row(registry, plant, place, today)
            })
            .collect(),
        made: today.to_string(),
    }
}

/// A sheet to tick plants off by, piece by piece where a plant has several; of a place only the pieces that stand there.
/// Trays come last.
pub fn stocktake_sheet(
    registry: &Registry,
    (plants, trays): (&[PlantRow], &[SeedlingTray]),
    place: Option<&str>,
    today: Day,
) -> BenchSheet {
    let trays = trays.iter().map(|tray| SheetRow {
        plant: tray.code(registry),
        place: tray.place(registry).map(str::to_owned),
        last: Vec::new(),
    });
    let pieces = |plant: PlantRow| {
        let left = pieces_left(registry, plant, place).into_iter();
        left.map(|(of, piece)| SheetRow {
            plant: registry.code_of(of),
            place: piece.place.as_deref().map(str::to_owned),
            last: Vec::new(),
        })
    };
    let of = |&plant: &PlantRow| {
        let mut rows: Vec<SheetRow> = pieces(plant).collect();
        if rows.is_empty() {
            rows.push(row(registry, plant, place, today));
        }
        rows
    };
    BenchSheet {
        of: Vec::new(),
        place: None,
        columns: Vec::new(),
        rows: plants.iter().flat_map(of).chain(trays).collect(),
        made: today.to_string(),
    }
}

/// A plant without its last readings; of its places the one asked for.
fn row(registry: &Registry, plant: PlantRow, place: Option<&str>, today: Day) -> SheetRow {
    let places = places(registry, plant, today);
    let there = |at: &str| place.is_some_and(|asked| is_in(at, asked));
    let shown = places.iter().find(|at| there(at)).or(places.first());
    // The row is of the piece that stands there, where that is one of several.
    let pieces = place.map(|place| pieces_left(registry, plant, Some(place)));
    let of = match pieces.as_deref() {
        Some([(of, _)]) if registry.ramets(plant).len() > 1 => *of,
        _ => PlantOrRamet::whole(plant),
    };
    SheetRow {
        plant: registry.code_of(of),
        place: shown.map(|at| (*at).to_owned()),
        last: Vec::new(),
    }
}

/// How a column is read.
pub fn column(registry: &Registry, asked: &AskedColumn) -> SheetColumn {
    let Some(declared) = asked.declared(registry) else {
        return SheetColumn {
            heading: asked.heading.clone(),
            asked: asked.heading.clone(),
            name: asked.heading.clone(),
            definition: None,
            read_as: ReadAs::Words,
        };
    };
    let read_as = match &declared.reads {
        Reads::Scale(anchors) => {
            ReadAs::Scale(anchors.iter().map(|anchor| anchor.to_string()).collect())
        }
        Reads::Kinds(kinds) => {
            let whole = kinds.iter().map(|kind| (*kind).to_owned());
            ReadAs::Kinds(shortest(kinds).into_iter().zip(whole).collect())
        }
        Reads::Length(_) | Reads::Count | Reads::Number => {
            ReadAs::Measure(asked.unit().map(unit_word))
        }
    };
    let usual = asked_column(registry, declared.code).as_ref() == Some(asked);
    SheetColumn {
        heading: asked.heading.clone(),
        asked: match usual {
            true => declared.code.to_owned(),
            false => asked.heading.clone(),
        },
        name: declared.name.to_string(),
        definition: declared.definition.as_deref().map(str::to_owned),
        read_as,
    }
}

/// A last reading in the unit of the column; as typed where it has no value in it, and a bare number then says so.
pub fn last_words(last: &LastReading, asked: &AskedColumn) -> String {
    let is_bare = || Length::read(&last.typed).is_ok_and(|length| length.unit.is_none());
    match (last.value, asked.unit()) {
        (Some(cm), Some(unit)) => in_unit(cm, unit),
        (None, Some(_)) if last.heading.is_none() && is_bare() => {
            format!("{} (no unit)", last.typed.trim())
        }
        _ => last.typed.trim().to_owned(),
    }
}
