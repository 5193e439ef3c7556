//! Ditto marks: a cell that stands for the cell above it (common practice, no source).
//!
//! A mark is taken for the cell above only where that cell is of the same column, in the row right above, and not blank.
//! Codes, numbers and remarks are not repeated so: two plants have two codes, and `"` behind a number is an inch.

use super::answer::{ColumnTaken, ImportTable};
use super::dates::is_blank;
use super::word_lists::is_in;
use crate::record::Holds;
use crate::text::GridRow;

/// Marks, in small letters and without blanks and hyphens around them.
const MARKS: &str =
    "\" | '' | “ | ” | „ | ″ | 〃 | ,, | do | do. | ditto | as above | same as above";

/// Whether a cell is a ditto mark.
pub(super) fn is_ditto(cell: &str) -> bool {
    let ends = |c: char| c.is_whitespace() || c == '-' || c == '–';
    is_in(MARKS, cell.to_lowercase().trim_matches(ends))
}

/// Whether cells of a column are read at all, so that a mark in them has a meaning.
pub(super) fn is_read(column: &ColumnTaken) -> bool {
    ![Holds::Note, Holds::NotRead, Holds::Price].contains(&column.holds)
}

/// Whether a mark in a column can stand for the cell above.
fn may_repeat(column: &ColumnTaken) -> bool {
    use Holds::{Code, Germinated, Left, Pods, Pot, Reading, Seeds};
    let own = [Code, Germinated, Left, Pods, Pot, Reading, Seeds];
    is_read(column) && !own.contains(&column.holds)
}

/// The rows of a table with the marks replaced by what they stand for, and their number put down with each column; a mark
/// that stands for nothing stays. `None` where the table has none.
pub(super) fn written_out(table: &mut ImportTable, rows: &[&GridRow]) -> Option<Vec<GridRow>> {
    let has_mark = |row: &&GridRow| row.cells.iter().any(|cell| is_ditto(cell));
    if !rows.iter().any(has_mark) {
        return None;
    }
    let mut out: Vec<GridRow> = Vec::with_capacity(rows.len());
    for row in rows {
        let mut row = (*row).clone();
        let above = out.last().filter(|above| above.line + 1 == row.line);
        for column in table.columns.iter_mut().filter(|of| may_repeat(of)) {
            let of_above = above.and_then(|above| above.cells.get(column.at));
            let stands_for = of_above.filter(|cell| !is_blank(cell) && !is_ditto(cell));
            let mark = row.cells.get_mut(column.at).filter(|cell| is_ditto(cell));
            if let (Some(mark), Some(words)) = (mark, stands_for) {
                mark.clone_from(words);
                column.dittos += 1;
            }
        }
        out.push(row);
    }
    Some(out)
}
