//! The rows of a sitting, kept as one list of cells: a page may hold thousands of rows of three or four short texts.

use super::FreeText;
use serde::de::{Deserialize, DeserializeSeed, Deserializer, SeqAccess, Visitor};
use serde::{Serialize, Serializer};
use std::fmt;

/// Rows of cells, as typed; rows may differ in length.
#[derive(Debug, Default, PartialEq, Eq)]
pub struct Rows<'t> {
    cells: Vec<FreeText<'t>>,
    /// For each row, where its cells end.
    ends: Vec<u32>,
}

impl<'t> Rows<'t> {
    /// Number of rows.
    pub fn len(&self) -> usize {
        self.ends.len()
    }

    /// Whether there is no row.
    pub fn is_empty(&self) -> bool {
        self.ends.is_empty()
    }

    /// Number of cells in all rows.
    pub fn cell_count(&self) -> usize {
        self.cells.len()
    }

    /// Empties the cells at some places of every row; the plant's number stands at place 0.
    pub(super) fn blank(&mut self, places: &[usize]) {
        let mut start = 0;
        for &end in &self.ends {
            let row = &mut self.cells[start..end as usize];
            for &place in places {
                if let Some(cell) = row.get_mut(place) {
                    *cell = FreeText::default();
                }
            }
            start = end as usize;
        }
    }

    /// The rows in order: the plant's number, then a cell for each column.
    pub fn iter(&self) -> impl ExactSizeIterator<Item = &[FreeText<'t>]> {
        let mut start = 0;
        self.ends.iter().map(move |&end| {
            let row = &self.cells[start..end as usize];
            start = end as usize;
            row
        })
    }
}

impl<'de: 't, 't> Deserialize<'de> for Rows<'t> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let mut rows = Rows::default();
        from.deserialize_seq(AllRows(&mut rows))?;
        Ok(rows)
    }
}

struct AllRows<'r, 't>(&'r mut Rows<'t>);

impl<'de: 't, 't> Visitor<'de> for AllRows<'_, 't> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a list of rows")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut rows: A) -> Result<(), A::Error> {
        while rows.next_element_seed(OneRow(&mut *self.0))?.is_some() {}
        Ok(())
    }
}

/// Adds one row to those there.
struct OneRow<'r, 't>(&'r mut Rows<'t>);

impl<'de: 't, 't> DeserializeSeed<'de> for OneRow<'_, 't> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, from: D) -> Result<(), D::Error> {
        from.deserialize_seq(self)
    }
}

impl<'de: 't, 't> Visitor<'de> for OneRow<'_, 't> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a row: a plant's number, then a cell for each column")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut cells: A) -> Result<(), A::Error> {
        while let Some(cell) = cells.next_element()? {
            self.0.cells.push(cell);
        }
        // A file holds less than 4 GiB, so fewer cells than a u32 counts.
        self.0.ends.push(self.0.cells.len() as u32);
        Ok(())
    }
}

impl Serialize for Rows<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(self.iter())
    }
}
