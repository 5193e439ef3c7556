//! A sitting to be filled in on a screen: the rows and columns of the paper sheet, with what was read last and what is in
//! the book already.

use crate::analysis::bench_sheet::{SheetColumn, column, last_words};
use crate::observation::asked_columns::AskedColumn;
use crate::observation::who_it_may_be::is_mixed_up;
use crate::recording::measuring::{PlantToRead, Start, plants_to_read};
use crate::registry::{Registry, Target};

/// A sitting.
pub struct SittingPage {
    /// The day, as it is written into the page.
    pub on: String,
    /// Where the plants stand, when the sitting is of a place.
    pub place: Option<String>,
    /// What is read.
    pub columns: Vec<SheetColumn>,
    /// The plants, in the order they were asked for.
    pub rows: Vec<PlantReadLine>,
}

/// One plant.
pub struct PlantReadLine {
    /// Its code.
    pub plant: String,
    /// What was read last before this sitting, column by column, in the column's unit.
    pub last: Vec<Option<String>>,
    /// What this sitting has already, column by column; empty for what was not read.
    pub there: Vec<String>,
    /// The remark this sitting has on it.
    pub note: Option<String>,
    /// Whether it has a row in this sitting.
    pub is_read: bool,
    /// Whether it was mixed up with others and is not known apart yet.
    pub is_mixed_up: bool,
}

/// The sitting that `start` asks for; plants that have a row in it are shown with it.
pub fn sitting(registry: &Registry, start: &Start) -> SittingPage {
    let (plants, ..) = plants_to_read(registry, start);
    SittingPage {
        on: start.on.text.clone(),
        place: start.circumstances.place.clone(),
        columns: start
            .columns
            .iter()
            .map(|asked| column(registry, asked))
            .collect(),
        rows: plants
            .into_iter()
            .map(|plant| row(registry, plant, start.columns))
            .collect(),
    }
}

fn row(registry: &Registry, of: PlantToRead, columns: &[AskedColumn]) -> PlantReadLine {
    let last = of.last.iter().zip(columns);
    let plant = match registry.target(&of.row.plant) {
        Some(Target::Plant(plant) | Target::Ramet(plant, _)) => Some(plant),
        _ => None,
    };
    PlantReadLine {
        is_mixed_up: plant.is_some_and(|plant| is_mixed_up(registry, plant)),
        last: last
            .map(|(last, asked)| last.as_ref().map(|last| last_words(last, asked)))
            .collect(),
        plant: of.row.plant,
        there: of.row.cells,
        note: of.row.note,
        is_read: of.written,
    }
}
