//! The tables of a sheet as CSV (RFC 4180), safe to open in a spreadsheet.

use super::folding::number_text;
use crate::report::{Cell, Section, Sheet, Table};
use crate::text::one_line;

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
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    let mut row = |cells: Vec<CsvCell>| {
        // Writing into memory cannot fail, and every row has as many cells as there are columns.
        let _ = writer.write_record(cells.iter().map(|cell| &cell.0));
    };
    if let Some(title) = &table.title {
        let mut cells = vec![CsvCell::text(title)];
        cells.resize(table.columns.len().max(1), CsvCell::default());
        row(cells);
    }
    let headings = table.columns.iter();
    row(headings
        .map(|column| CsvCell::text(&column.heading))
        .collect());
    for cells in &table.rows {
        row(cells.iter().map(CsvCell::of).collect());
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).into_owned()
}

/// A cell as it may stand in CSV; quotes around it are left to the `csv` crate.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct CsvCell(String);

impl CsvCell {
    /// A cell of a table.
    fn of(cell: &Cell) -> Self {
        Self(match cell {
            Cell::Text(text) => return Self::text(text),
            Cell::Number(number, _) if !number.is_finite() => String::new(),
            Cell::Number(number, decimals) => number_text(*number, *decimals).replace('−', "-"),
            Cell::Count(count) => count.to_string(),
            Cell::Missing => String::new(),
        })
    }

    /// Words: in one line, every character seen. A spreadsheet computes a cell that begins like a formula; an apostrophe
    /// in front keeps it text, but a plain number such as `-3.5` is left as it is.
    pub fn text(text: &str) -> Self {
        let shown = one_line(text);
        let computed = shown
            .trim_start()
            .starts_with(['=', '+', '-', '@', '＝', '＋', '－', '＠']);
        // A break at the start was typed to get past such a rule.
        let broken = text.starts_with(['\t', '\r', '\n']);
        Self(match (computed || broken) && !is_plain_number(&shown) {
            true => format!("'{shown}"),
            false => shown.into_owned(),
        })
    }
}

/// A sign, digits, and at most one mark of decimals between them.
fn is_plain_number(text: &str) -> bool {
    let digits = text.strip_prefix(['-', '+']).unwrap_or(text);
    let mut parts = digits.splitn(2, ['.', ',']);
    parts.all(|part| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit()))
}
