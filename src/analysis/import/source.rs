//! Where a row came from: its cells word for word, with file and row, as they are kept in the note of its record.
//!
//! The words stand between braces. A brace or backslash in a cell gets a backslash before it, so that the end is found
//! again also when a grower has written something before or behind.

use super::answer::ImportTable;
use super::figures::is_number;
use crate::text::{GridRow, one_line};

/// The words that are kept for a row.
pub(super) fn source(table: &ImportTable, row: &GridRow) -> String {
    format!(
        "{{{}, row {}: {}}}",
        escaped(&table.name),
        row.line,
        cells(table, row)
    )
}

/// The cells alone: rows are equal whose cells are.
pub(super) fn cells(table: &ImportTable, row: &GridRow) -> String {
    let filled = table.columns.iter().filter_map(|column| {
        let cell = row.cells.get(column.at).filter(|cell| !cell.is_empty())?;
        Some(named(&column.heading, cell))
    });
    filled.collect::<Vec<_>>().join("; ")
}

/// A cell behind its heading, as it stands among those of its row.
pub(super) fn named(heading: &str, cell: &str) -> String {
    format!("{}: {}", escaped(heading), escaped(cell))
}

fn escaped(words: &str) -> String {
    let mut out = String::with_capacity(words.len());
    for c in one_line(words).chars() {
        if matches!(c, '{' | '}' | '\\') {
            out.push('\\');
        }
        out.push(c);
    }
    out
}

/// Every stretch of a note between braces, without them.
pub(super) fn sources_in(note: &str) -> Vec<&str> {
    let (mut found, mut begins, mut escaped) = (Vec::new(), None, false);
    for (at, c) in note.char_indices() {
        match c {
            _ if escaped => escaped = false,
            '\\' => escaped = true,
            '{' => begins = Some(at + 1),
            '}' => found.extend(begins.take().map(|from: usize| &note[from..at])),
            _ => {}
        }
    }
    found
}

/// The rows whose cells stand in some words of a page: table and number.
pub fn rows_in(words: &str) -> Vec<(String, usize)> {
    let row = |source: &str| {
        let (table, number, _) = parts(source)?;
        Some((table.to_owned(), number.parse().ok()?))
    };
    sources_in(words).into_iter().filter_map(row).collect()
}

/// What tells one row of a table from another when rows have moved: table and cells without the number.
pub(super) fn key(source: &str) -> Option<(String, String)> {
    let (table, number, cells) = parts(source)?;
    is_number(number).then(|| (table.to_owned(), cells.to_owned()))
}

/// Table, number and cells of the words that are kept for a row, in their braces or without.
pub(super) fn parts(source: &str) -> Option<(&str, &str, &str)> {
    let bare = source.strip_prefix('{');
    let bare = bare.and_then(|rest| rest.strip_suffix('}'));
    let source = bare.unwrap_or(source);
    let (table, rest) = source.split_once(", row ")?;
    let (number, cells) = rest.split_once(": ")?;
    Some((table, number, cells))
}
