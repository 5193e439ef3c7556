//! The tables of a sheet as CSV (RFC 4180), safe to open in a spreadsheet.

use super::folding::number_text;
use crate::registry::PlantRow;
use crate::report::export::ExportTable;
use crate::report::{Cell, Section, Sheet, Table};
use crate::text::{on_cores, one_line};
use std::borrow::Cow;

/// Rows that are written in one go.
const ROWS: usize = 4096;

/// All tables one after the other, an empty line between; units stand in the headings, a table's title in a line of its
/// own above them, as wide as the table.
pub fn sheet(sheet: &Sheet) -> String {
    let tables = sheet.sections.iter().filter_map(|section| match section {
        Section::Table(one) => Some(table(one)),
        _ => None,
    });
    tables.collect::<Vec<_>>().join("\r\n")
}

/// One table.
pub fn table(table: &Table) -> String {
    let mut lines = Lines::new();
    if let Some(title) = &table.title {
        let mut cells = vec![CsvCell::text(title)];
        cells.resize(table.columns.len().max(1), CsvCell::default());
        lines.line(cells);
    }
    let headings = table.columns.iter();
    lines.line(headings.map(|column| CsvCell::text(&column.heading)));
    for cells in &table.rows {
        lines.line(cells.iter().map(CsvCell::of));
    }
    String::from_utf8_lossy(&lines.bytes()).into_owned()
}

/// A table for another program. Its rows are made here, some thousands at a time, each lot on a core of its own.
pub fn export(table: &ExportTable) -> Vec<u8> {
    let mut headings = Lines::new();
    headings.line(table.headings.iter().map(|heading| CsvCell::text(heading)));
    let lots: Vec<&[PlantRow]> = table.plants.chunks(ROWS).collect();
    let written = on_cores(&lots, lots.len() > 1, |plants| {
        let mut lines = Lines::new();
        for &plant in *plants {
            lines.line(table.row(plant).iter().map(CsvCell::of));
        }
        lines.bytes()
    });
    let mut bytes = headings.bytes();
    for lot in &written {
        bytes.extend_from_slice(lot);
    }
    bytes
}

/// Lines of CSV in memory.
struct Lines(csv::Writer<Vec<u8>>);

impl Lines {
    fn new() -> Self {
        let mut how = csv::WriterBuilder::new();
        how.terminator(csv::Terminator::CRLF);
        Lines(how.from_writer(Vec::new()))
    }

    fn line<'c>(&mut self, cells: impl IntoIterator<Item = CsvCell<'c>>) {
        // Writing into memory cannot fail, and every line has as many cells as there are columns.
        for CsvCell(cell) in cells {
            let _ = self.0.write_field(cell.as_bytes());
        }
        let _ = self.0.write_record(None::<&[u8]>);
    }

    fn bytes(self) -> Vec<u8> {
        self.0.into_inner().unwrap_or_default()
    }
}

/// A cell as it may stand in CSV; quotes around it are left to the `csv` crate.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CsvCell<'c>(Cow<'c, str>);

impl<'c> CsvCell<'c> {
    /// A cell of a table.
    fn of(cell: &'c Cell) -> Self {
        Self(match cell {
            Cell::Text(text) => return Self::text(text),
            Cell::Number(number, _) if !number.is_finite() => Cow::Borrowed(""),
            Cell::Number(number, decimals) => {
                number_text(*number, *decimals).replace('−', "-").into()
            }
            Cell::Count(count) => count.to_string().into(),
            Cell::Missing => Cow::Borrowed(""),
        })
    }

    /// Words: in one line, every character seen. A spreadsheet computes a cell that begins like a formula; an apostrophe
    /// in front keeps it text, but a plain number such as `-3.5` is left as it is.
    pub fn text(text: &'c str) -> Self {
        let shown = one_line(text);
        let computed = shown
            .trim_start()
            .starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']);
        // A break at the start was typed to get past such a rule.
        let broken = text.starts_with(['\t', '\r', '\n']);
        Self(match (computed || broken) && !is_plain_number(&shown) {
            true => format!("'{shown}").into(),
            false => shown,
        })
    }
}

/// A sign, digits, and at most one mark of decimals between them.
fn is_plain_number(text: &str) -> bool {
    let digits = text.strip_prefix(['-', '+']).unwrap_or(text);
    let mut parts = digits.splitn(2, ['.', ',']);
    parts.all(|part| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit()))
}
