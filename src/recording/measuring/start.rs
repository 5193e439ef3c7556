//! The beginning of a sitting: which plants still have no row in it, and what is known of each.

use super::session::{Others, PlantToRead, Session, Siblings};
use crate::observation::asked_columns::AskedColumn;
use crate::observation::last_reading::last_reading;
use crate::observation::value;
use crate::recording::dates::Dated;
use crate::recording::events::measure::{MeasuredRow, Seen};
use crate::recording::events::sitting_page::{Circumstances, OnPage, sitting_of};
use crate::registry::{Column, CrossRow, PlantRow, Registry, SittingRow};
use std::collections::{BTreeMap, BTreeSet};

/// A sitting of some plants.
pub struct Start<'a> {
    /// The plants, in the order they are asked about.
    pub plants: &'a [PlantRow],
    /// What is read.
    pub columns: &'a [AskedColumn],
    /// The day.
    pub on: &'a Dated,
    /// What holds for all rows.
    pub circumstances: &'a Circumstances,
    /// Whether plants that have a row are asked about again.
    pub again: bool,
}

/// The session, and how many plants were left out because they have a row already.
pub fn session<'r, 't>(registry: &'r Registry<'t>, start: &Start) -> (Session<'r, 't>, usize) {
    let (to_read, others, left_out) = plants_to_read(registry, start);
    let columns = start.columns.to_vec();
    let given = (start.on.when, start.circumstances.place.clone());
    let session = Session::new(registry, columns, to_read, others, given);
    (session, left_out)
}

/// The plants to be read with what is known of each; what the others read; how many those are.
pub fn plants_to_read(registry: &Registry, start: &Start) -> (Vec<PlantToRead>, Others, usize) {
    let mut pages: BTreeMap<Option<CrossRow>, Option<OnPage>> = BTreeMap::new();
    let given = (start.on, start.circumstances);
    for &plant in start.plants {
        let of_page = || sitting_of(registry, plant, start.columns, given);
        let page = registry.cross_of(plant);
        pages.entry(page).or_insert_with(of_page);
    }
    let aside = pages.values().flatten().map(|there| there.sitting);
    let aside: Vec<SittingRow> = aside.collect();
    let (mut to_read, mut others, mut left_out) = (Vec::new(), Vec::new(), 0);
    for &plant in start.plants {
        let there = pages[&registry.cross_of(plant)].as_ref();
        let there = there.filter(|there| there.plants.contains(&plant));
        let row = row_in(there, registry, plant, start.columns);
        if there.is_some() && !start.again {
            left_out += 1;
            others.extend(values(registry, plant, &row, start.columns));
            continue;
        }
        let last = start.columns.iter();
        let last = last.map(|asked| last_reading(registry, plant, asked, &aside));
        to_read.push(PlantToRead {
            siblings: siblings(registry, plant),
            last: last.collect(),
            written: there.is_some(),
            row,
        });
    }
    // The other plants of the sitting that goes on were read as these are.
    let asked: BTreeSet<PlantRow> = start.plants.iter().copied().collect();
    for there in pages.values().flatten() {
        for &plant in there.plants.iter().filter(|plant| !asked.contains(plant)) {
            let row = row_in(Some(there), registry, plant, start.columns);
            others.extend(values(registry, plant, &row, start.columns));
        }
    }
    (to_read, others, left_out)
}

fn siblings(registry: &Registry, plant: PlantRow) -> Siblings {
    (registry.cross_of(plant), registry.road(plant).0)
}

/// A plant's row as it stands in a sitting; blank where it has none.
fn row_in(
    there: Option<&OnPage>,
    registry: &Registry,
    plant: PlantRow,
    columns: &[AskedColumn],
) -> MeasuredRow {
    let of_sitting = |column| Some(there?.cell(registry, plant, column)?.to_owned());
    let cells = columns
        .iter()
        .map(|asked| of_sitting(asked.column).unwrap_or_default());
    let asks_notes = columns.iter().any(|asked| asked.column == Column::Note);
    let seen = Seen {
        cells: cells.collect(),
        note: of_sitting(Column::Note).filter(|_| !asks_notes),
    };
    MeasuredRow {
        plant: registry.code(plant),
        cells: seen.cells.clone(),
        note: seen.note.clone(),
        dead: false,
        seen,
    }
}

/// The values of a row, for its siblings to be held against.
fn values(
    registry: &Registry,
    plant: PlantRow,
    row: &MeasuredRow,
    columns: &[AskedColumn],
) -> Others {
    let of = |(at, asked): (usize, &AskedColumn)| {
        let value = value(asked.declared(registry)?, &row.cells[at], asked.unit()).ok()?;
        Some((siblings(registry, plant), at, value))
    };
    columns.iter().enumerate().filter_map(of).collect()
}
