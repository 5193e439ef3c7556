//! What a table and its cells look like: coloured cells, sentences in the place of entries, codes, signs that cannot be seen.

use super::answer::ColumnTaken;
use super::facts::InputTable;
use crate::record::Length;
use crate::registry::ids::is_code;
use crate::text::{GridRow, composed, one_line, visible_char};
use std::collections::BTreeSet;

/// Counts the coloured cells of each column, not those of headings.
pub(super) fn count_coloured(columns: &mut [ColumnTaken], below: &[&GridRow], table: &InputTable) {
    let lines: BTreeSet<usize> = below.iter().map(|row| row.line).collect();
    let coloured = table.coloured.iter();
    for (_, at) in coloured.filter(|(line, _)| lines.contains(line)) {
        if let Some(column) = columns.iter_mut().find(|of| of.at == *at) {
            column.coloured += 1;
        }
    }
}

/// Whether the cells of rows have as many words as pieces of sentences: three and a half on average, which short entries with
/// a remark behind them do not reach.
pub(super) fn are_sentences(rows: &[&GridRow]) -> bool {
    let cells = rows.iter().flat_map(|row| &row.cells);
    let filled = cells.filter(|cell| !cell.is_empty());
    let words = filled.clone().flat_map(|cell| cell.split_whitespace());
    let (words, filled) = (words.count(), filled.count());
    filled > 0 && 2 * words >= 7 * filled
}

/// Letters and digits, as in `A7` or `X20-01`, and no size.
pub(super) fn is_code_like(cell: &str) -> bool {
    let mixed = cell.contains(|c: char| c.is_ascii_digit()) && cell.contains(char::is_alphabetic);
    let is_size = Length::read(cell).is_ok_and(|length| length.unit.is_some());
    mixed && is_code(cell) && cell.len() <= 12 && !is_size
}

/// `ventricosa x truncata`: two with a sign between them.
pub(super) fn is_pair(cell: &str) -> bool {
    cell.replace('×', " x ").to_lowercase().contains(" x ")
}

/// A cell as it can be written on a page: an invisible character is replaced by a visible mark, and a letter and its mark are
/// one sign, so that a code is the same in tables of all systems.
pub(super) fn seen(cell: &str) -> String {
    let seen = |c: char| if c.is_control() { c } else { visible_char(c) };
    composed(cell.chars().map(seen).collect())
}

/// Words of a cell as the sheet has them: in one line, every character seen, without the apostrophe that keeps a
/// spreadsheet from computing them.
pub(super) fn plain(words: &str) -> String {
    let line = one_line(words);
    let line = line.trim();
    let line = line.strip_prefix('\'').unwrap_or(line);
    line.split_whitespace().collect::<Vec<_>>().join(" ")
}
