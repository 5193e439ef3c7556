//! The tables of a sheet as CSV (RFC 4180), safe to open in a spreadsheet.

use super::text::number_text;
use crate::report::{Cell, Section, Sheet, Table};

/// All tables one after the other, an empty line between; units stand in the headings, a table's title in a line of its
/// own above them, as wide as the table.
pub fn sheet(sheet: &Sheet) -> String {
    let tables = sheet.sections.iter().filter_map(|section| match section {
        Section::Table(table) => Some(table_csv(table)),
        _ => None,
    });
    tables.collect::<Vec<_>>().join("\r\n")
}

fn table_csv(table: &Table) -> String {
    let mut writer = csv::WriterBuilder::new()
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    // Writing into memory cannot fail, and every row has as many cells as there are columns.
    if let Some(title) = &table.title {
        let rest = std::iter::repeat_n(String::new(), table.columns.len().saturating_sub(1));
        let _ = writer.write_record(std::iter::once(safe(title)).chain(rest));
    }
    let headings = table.columns.iter().map(|column| safe(&column.heading));
    let _ = writer.write_record(headings);
    for row in &table.rows {
        let _ = writer.write_record(row.iter().map(cell));
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).into_owned()
}

fn cell(cell: &Cell) -> String {
    match cell {
        Cell::Text(text) => safe(text),
        Cell::Number(number, _) if !number.is_finite() => String::new(),
        Cell::Number(number, decimals) => number_text(*number, *decimals).replace('−', "-"),
        Cell::Count(count) => count.to_string(),
        Cell::Missing => String::new(),
    }
}

/// A spreadsheet runs a text that starts like a formula; an apostrophe in front keeps it text.
pub fn safe(text: &str) -> String {
    if text.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']) {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}
