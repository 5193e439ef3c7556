//! Readings: for each sitting its plants, for each plant its filled cells. Values are read from the text when asked for.
//!
//! A page of readings says a cell in seven bytes and a plant's number in six, so the rows here must be short: 8 bytes a
//! cell, 8 a plant of a sitting, 4 to find the plant again.

use super::row_types::{PlantRow, SittingRow, TraitRow};
use crate::record::{LengthUnit, Sitting};
use crate::text::{FileId, Sources, Span};
use std::ops::Range;

/// One filled cell.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Reading {
    /// The plant read.
    pub plant: PlantRow,
    /// The sitting.
    pub sitting: SittingRow,
    /// Index among the sitting's columns.
    pub column: u8,
    cell: Cell,
}

/// Where a cell's text stands, 8 bytes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Cell {
    /// Where the text starts in the sitting's file, or its index among the sitting's cells spelt with escapes.
    pub start: u32,
    /// Bytes of the text; [`Cell::SPELT`] for one spelt with escapes.
    pub len: u8,
    /// Index among the sitting's columns.
    pub column: u8,
}

impl Cell {
    pub const SPELT: u8 = u8::MAX;
}

/// The cells of one plant in one sitting, 8 bytes.
#[derive(Clone, Copy, Debug)]
pub(super) struct CellsOf {
    /// The plant; before plants are numbered its index on the page.
    pub plant: u32,
    /// Where its cells end; they start where those of the row before end.
    pub end: u32,
}

const _: () = assert!(size_of::<Cell>() <= 8 && size_of::<CellsOf>() <= 8);

/// What a column of a sitting holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Column {
    /// Readings of a declared trait, in a unit if the heading gives one.
    Trait {
        /// The trait.
        index: TraitRow,
        /// The unit in the heading.
        unit: Option<LengthUnit>,
    },
    /// Pests or damage seen: the row's readings are kept apart.
    Pest,
    /// Which kind of pitcher was read on this plant.
    Pitcher,
    /// Words.
    Note,
    /// A heading that names nothing declared; its cells are not used.
    Unknown,
}

/// One sitting, its rows taken out into readings.
#[derive(Debug)]
pub struct SittingHead<'t> {
    /// The file it stands in.
    pub file: FileId,
    /// The record, without its rows.
    pub sitting: Sitting<'t>,
    /// What the columns hold.
    pub columns: Vec<Column>,
    pub(super) rows: Vec<CellsOf>,
    pub(super) cells: Vec<Cell>,
    /// Cells whose text had escapes or was very long.
    pub(super) spelt: Vec<Box<str>>,
    /// Its own row, and how many rows the sittings before it have.
    pub(super) at: SittingRow,
    pub(super) rows_before: u32,
    /// The least and the greatest row of its plants.
    pub(super) between: (u32, u32),
}

impl SittingHead<'_> {
    /// The plants of its rows, as on the page.
    pub fn row_plants(&self) -> impl ExactSizeIterator<Item = PlantRow> {
        self.rows.iter().map(|row| PlantRow(row.plant))
    }

    /// The readings of one row.
    pub fn row(&self, row: usize) -> impl Iterator<Item = Reading> {
        self.of_row(row)
    }

    fn of_row(&self, row: usize) -> impl Iterator<Item = Reading> {
        let plant = PlantRow(self.rows[row].plant);
        self.cells[cells_of(&self.rows, row)]
            .iter()
            .map(move |&cell| Reading {
                plant,
                sitting: self.at,
                column: cell.column,
                cell,
            })
    }

    /// Its rows: a plant and its readings, as on the page.
    pub fn rows(&self) -> impl Iterator<Item = (PlantRow, impl Iterator<Item = Reading>)> {
        let rows = self.rows.iter().enumerate();
        rows.map(|(at, row)| (PlantRow(row.plant), self.of_row(at)))
    }

    /// The first and the last of its plants in the order of the registry; `None` when no plant was read.
    pub fn plants(&self) -> Option<(PlantRow, PlantRow)> {
        let (first, last) = self.between;
        (!self.rows.is_empty()).then_some((PlantRow(first), PlantRow(last)))
    }

    /// The text of one of its readings' cells, as typed.
    pub fn text<'r>(&'r self, sources: &'r Sources, reading: &Reading) -> &'r str {
        let cell = reading.cell;
        if cell.len == Cell::SPELT {
            return &self.spelt[cell.start as usize];
        }
        let end = cell.start + u32::from(cell.len);
        sources.kept_slice(Span::new(self.file, cell.start..end))
    }
}

/// The cells of a row, as a range of indices.
pub(super) fn cells_of(rows: &[CellsOf], row: usize) -> Range<usize> {
    let start = row.checked_sub(1).map_or(0, |before| rows[before].end);
    start as usize..rows[row].end as usize
}

/// All sittings and readings.
#[derive(Debug, Default)]
pub struct ReadingTable<'t> {
    sittings: Vec<SittingHead<'t>>,
    /// Rows of all sittings, numbered through, by plant then by sitting.
    by_plant: Vec<u32>,
    /// For each plant the first of its places in `by_plant`, and one more for the end.
    first_of: Vec<u32>,
}

impl<'t> ReadingTable<'t> {
    /// Numbers the sittings and finds each plant's rows in them.
    pub(super) fn new(mut sittings: Vec<SittingHead<'t>>, plants: usize) -> Self {
        let mut rows = 0;
        let mut next_of = vec![0u32; plants + 1];
        for (at, head) in SittingRow::all(sittings.len()).zip(&mut sittings) {
            (head.at, head.rows_before) = (at, rows);
            rows += head.rows.len() as u32;
            head.between = (u32::MAX, 0);
            for row in &head.rows {
                next_of[row.plant as usize + 1] += 1;
                let (least, greatest) = head.between;
                head.between = (least.min(row.plant), greatest.max(row.plant));
            }
        }
        for plant in 0..plants {
            next_of[plant + 1] += next_of[plant];
        }
        let mut by_plant = vec![0; rows as usize];
        for (at, row) in sittings.iter().flat_map(|head| &head.rows).enumerate() {
            let next = &mut next_of[row.plant as usize];
            by_plant[*next as usize] = at as u32;
            *next += 1;
        }
        // Each plant's next free place is now the first of the plant after it.
        next_of.rotate_right(1);
        next_of[0] = 0;
        Self {
            sittings,
            by_plant,
            first_of: next_of,
        }
    }

    pub(super) fn into_sittings(self) -> Vec<SittingHead<'t>> {
        self.sittings
    }

    /// All sittings, by page and place in it.
    pub fn sittings(&self) -> &[SittingHead<'t>] {
        &self.sittings
    }

    /// The readings of one plant, by sitting.
    pub fn of(&self, plant: PlantRow) -> impl Iterator<Item = Reading> {
        self.rows_of(plant).flat_map(|(_, readings)| readings)
    }

    /// The sittings a plant is listed in, each with what was read of it; a row may be empty.
    pub fn rows_of(
        &self,
        plant: PlantRow,
    ) -> impl Iterator<Item = (SittingRow, impl Iterator<Item = Reading>)> {
        let of = match self.first_of.get(plant.index()..plant.index() + 2) {
            Some(&[first, end]) => first as usize..end as usize,
            _ => 0..0,
        };
        self.by_plant[of].iter().map(|&row| {
            let after = self.sittings.partition_point(|s| s.rows_before <= row);
            let head = &self.sittings[after - 1];
            (head.at, head.of_row((row - head.rows_before) as usize))
        })
    }

    /// The text of a reading's cell, as typed.
    pub(super) fn text<'r>(&'r self, sources: &'r Sources, reading: Reading) -> &'r str {
        self.sittings[reading.sitting.index()].text(sources, &reading)
    }
}
