//! What a table and its cells look like: coloured cells, sentences in the place of entries, codes.

use super::answer::ColumnTaken;
use super::facts::InputTable;
use crate::record::Length;
use crate::registry::ids::is_code;
use crate::text::GridRow;
use std::collections::BTreeSet;

/// Counts the coloured cells of each column, not those of headings.
pub(super) fn count_coloured(columns: &mut [ColumnTaken], places: &[usize], table: &InputTable) {
    let lines: BTreeSet<usize> = places.iter().map(|&row| table.rows[row].line).collect();
    for (_, at) in table
        .coloured
        .iter()
        .filter(|(line, _)| lines.contains(line))
    {
        let column = columns.iter_mut().find(|of| of.at == *at);
        if let Some(column) = column {
            column.coloured += 1;
        }
    }
}

/// Whether the cells of rows have as many words as pieces of sentences: three and a half on average, which short entries with
/// a remark behind them do not reach.
pub(super) fn are_sentences(places: &[usize], rows: &[GridRow]) -> bool {
    let cells = places.iter().flat_map(|&row| &rows[row].cells);
    let (mut words, mut filled) = (0, 0);
    for cell in cells.filter(|cell| !cell.is_empty()) {
        words += cell.split_whitespace().count();
        filled += 1;
    }
    filled > 0 && 2 * words >= 7 * filled
}

/// Letters and digits, as in `A7` or `X20-01`, and no size.
pub(super) fn is_code_like(cell: &str) -> bool {
    let mixed = cell.contains(|c: char| c.is_ascii_digit()) && cell.contains(char::is_alphabetic);
    let is_size = Length::read(cell).is_ok_and(|length| length.unit.is_some());
    mixed && is_code(cell) && cell.len() <= 12 && !is_size
}
