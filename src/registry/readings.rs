//! Readings, one row per filled cell of a sitting, 16 bytes each; the value is read from the text when asked for.

use super::PlantRow;
use crate::record::{LengthUnit, Sitting};
use crate::text::FileId;

/// One filled cell.
#[derive(Clone, Copy, Debug)]
pub struct Reading {
    /// The plant read.
    pub plant: PlantRow,
    /// Index of the sitting.
    pub sitting: u32,
    /// Where the cell's text starts in the sitting's file, or its index among the cells spelt with escapes.
    pub(super) start: u32,
    /// Bytes of the text; [`Reading::SPELT`] for one spelt with escapes.
    pub(super) len: u8,
    /// Index among the sitting's columns.
    pub column: u8,
}

impl Reading {
    pub(super) const SPELT: u8 = u8::MAX;
}

/// What a column of a sitting holds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Column {
    /// Readings of a declared trait, in a unit if the heading gives one.
    Trait {
        /// Index among the declared traits.
        index: u16,
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
    /// The cross on whose page it stands; `None` for one among the clones.
    pub cross: Option<u32>,
    /// The record, without its rows.
    pub sitting: Sitting<'t>,
    /// What the columns hold.
    pub columns: Vec<Column>,
    /// Its readings, as a range of rows in the table.
    pub readings: std::ops::Range<u32>,
}

/// All sittings and readings.
#[derive(Debug, Default)]
pub struct ReadingTable<'t> {
    pub(super) sittings: Vec<SittingHead<'t>>,
    pub(super) rows: Vec<Reading>,
    /// Cells whose text had escapes.
    pub(super) spelt: Vec<Box<str>>,
    /// Indices of readings, by plant then by sitting.
    by_plant: Vec<u32>,
    /// For each plant the first of its places in `by_plant`, and one more for the end.
    first_of: Vec<u32>,
}

impl<'t> ReadingTable<'t> {
    /// All sittings, by page and place in it.
    pub fn sittings(&self) -> &[SittingHead<'t>] {
        &self.sittings
    }

    /// All readings, by sitting.
    pub fn all(&self) -> &[Reading] {
        &self.rows
    }

    /// The readings of one plant, by sitting.
    pub fn of(&self, plant: PlantRow) -> impl ExactSizeIterator<Item = &Reading> {
        let of = match self.first_of.get(plant.index()..plant.index() + 2) {
            Some(&[first, end]) => first as usize..end as usize,
            _ => 0..0,
        };
        self.by_plant[of].iter().map(|&at| &self.rows[at as usize])
    }

    /// Sorts by plant; equal ones stay in the order of sittings.
    pub(super) fn index(&mut self, plants: usize) {
        let mut next_of = vec![0u32; plants + 1];
        for reading in &self.rows {
            next_of[reading.plant.index() + 1] += 1;
        }
        for plant in 0..plants {
            next_of[plant + 1] += next_of[plant];
        }
        self.by_plant = vec![0; self.rows.len()];
        for (at, reading) in self.rows.iter().enumerate() {
            let next = &mut next_of[reading.plant.index()];
            self.by_plant[*next as usize] = at as u32;
            *next += 1;
        }
        // Each plant's next free place is now the first of the plant after it.
        next_of.rotate_right(1);
        next_of[0] = 0;
        self.first_of = next_of;
    }
}
