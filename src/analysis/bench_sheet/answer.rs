//! A sheet as plain values.

use serde::Serialize;

/// A sheet to be filled in by hand.
#[derive(Clone, Debug, Serialize)]
pub struct BenchSheet {
    /// The crosses, parts or plants asked for, or the place.
    pub of: Vec<String>,
    /// The place asked for.
    pub place: Option<String>,
    /// What is read; empty for a stock-take.
    pub columns: Vec<SheetColumn>,
    /// The plants, in the order of the page.
    pub rows: Vec<SheetRow>,
    /// The day the sheet was made, `2024-06-01`.
    pub made: String,
}

/// What is read in one column.
#[derive(Clone, Debug, Serialize)]
pub struct SheetColumn {
    /// The heading as it stands in a sitting: `span cm`.
    pub heading: String,
    /// The word that asks for it: the code, with a unit where it is not the usual one.
    pub asked: String,
    /// The full name.
    pub name: String,
    /// How it is read.
    pub definition: Option<String>,
    /// What is written down.
    pub read_as: ReadAs,
}

/// What is written into a cell.
#[derive(Clone, Debug, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ReadAs {
    /// A measure in a unit; none for counts and plain numbers.
    Measure(Option<&'static str>),
    /// A step from 1, each with its written anchor.
    Scale(Vec<String>),
    /// One of some kinds, each with the fewest letters that tell it from the others.
    Kinds(Vec<(String, String)>),
    /// Words.
    Words,
}

/// One plant.
#[derive(Clone, Debug, Serialize)]
pub struct SheetRow {
    /// Its code.
    pub plant: String,
    /// Where it stands.
    pub place: Option<String>,
    /// What was read last, column by column, in the column's unit.
    pub last: Vec<Option<String>>,
}
