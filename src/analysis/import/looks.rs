//! What a table looks like: coloured cells, and sentences in the place of entries.

use super::answer::ColumnTaken;
use super::facts::InputTable;
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
