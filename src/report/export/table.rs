//! A table for another program, with what is said of it on standard error.

use crate::registry::PlantRow;
use crate::report::cell::Cell;
use std::fmt;

/// A table to write, one row a plant. Each row is made when it is written, so that no two have to be held at once.
pub struct ExportTable<'c> {
    /// The headings.
    pub headings: Vec<String>,
    /// The plants, a row each.
    pub plants: Vec<PlantRow>,
    /// The cells of a plant, one for each heading.
    row: Box<dyn Fn(PlantRow) -> Vec<Cell> + Sync + 'c>,
    /// A line each: how much it holds, what was left out or left empty, what of it is private.
    pub remarks: Vec<String>,
}

impl<'c> ExportTable<'c> {
    /// A table of plants whose rows `row` makes.
    pub fn of<H: Into<String>>(
        headings: impl IntoIterator<Item = H>,
        plants: Vec<PlantRow>,
        row: impl Fn(PlantRow) -> Vec<Cell> + Sync + 'c,
    ) -> Self {
        ExportTable {
            headings: headings.into_iter().map(Into::into).collect(),
            plants,
            row: Box::new(row),
            remarks: Vec::new(),
        }
    }

    /// Says something of it beside.
    pub fn remarked(mut self, line: String) -> Self {
        self.remarks.push(line);
        self
    }

    /// Makes the row of a plant.
    ///
    /// # Panics
    /// If it has not as many cells as there are headings.
    pub fn row(&self, plant: PlantRow) -> Vec<Cell> {
        let cells = (self.row)(plant);
        let filled = cells.len() == self.headings.len();
        assert!(filled, "a row has a cell for every heading");
        cells
    }
}

/// The headings and the number of plants.
impl fmt::Debug for ExportTable<'_> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let mut table = out.debug_struct("ExportTable");
        table.field("headings", &self.headings);
        table.field("plants", &self.plants.len()).finish()
    }
}
