//! A table in the width of the terminal: words are folded within their column, numbers are never cut.

use super::text::{cell_text, fold, pad, unbroken};
use crate::report::{ColumnHead, Table};
use std::cmp::Reverse;
use std::collections::BTreeMap;
use unicode_width::UnicodeWidthStr;

/// A column of words is not folded narrower than this.
const NARROWEST: usize = 11;

/// The table in lines; columns of words, and headings, give way until it fits `width`, as far as their longest words let
/// them.
pub fn table_lines(table: &Table, width: usize) -> String {
    let headings: Vec<String> = table.columns.iter().map(|c| c.heading.clone()).collect();
    let mut rows: Vec<Vec<String>> = Vec::with_capacity(table.rows.len() + 1);
    if headings.iter().any(|heading| !heading.is_empty()) {
        rows.push(headings);
    }
    let body = table.rows.iter();
    rows.extend(body.map(|row| row.iter().map(cell_text).collect()));
    let widths = fitted(&rows, &table.columns, width);
    let mut out = String::new();
    for row in &rows {
        row_lines(row, &table.columns, &widths, &mut out);
    }
    out
}

/// Widths of the columns: as wide as their cells, less where the line would be too long.
fn fitted(rows: &[Vec<String>], columns: &[ColumnHead], width: usize) -> Vec<usize> {
    let column = |at: usize| rows.iter().filter_map(move |row| row.get(at));
    let mut widths: Vec<usize> = (0..columns.len())
        .map(|at| column(at).map(|cell| cell.width()).max().unwrap_or(0))
        .collect();
    let longest_word = |text: &String| {
        unbroken(text)
            .map(UnicodeWidthStr::width)
            .max()
            .unwrap_or(0)
    };
    let least = |at: usize| {
        let words = column(at).map(longest_word).max().unwrap_or(0);
        // A number and its sign stay together; only the heading above them is folded.
        let numbers = column(at)
            .skip(1)
            .map(|cell| cell.width())
            .max()
            .unwrap_or(0);
        if columns[at].right {
            words.max(numbers)
        } else {
            words.max(NARROWEST)
        }
    };
    let least: Vec<usize> = (0..columns.len())
        .map(|at| least(at).min(widths[at]))
        .collect();
    let cells: Vec<BTreeMap<usize, usize>> =
        (0..columns.len()).map(|at| counted(column(at))).collect();
    while widths.iter().map(|width| width + 2).sum::<usize>() > width {
        // The column gives way whose cells need the fewest further lines for it; among equals the widest.
        let more_lines =
            |at: usize| lines(&cells[at], widths[at] - 1) - lines(&cells[at], widths[at]);
        let can_give = (0..widths.len()).filter(|&at| widths[at] > least[at]);
        match can_give.min_by_key(|&at| (more_lines(at), Reverse(widths[at]))) {
            Some(giving) => widths[giving] -= 1,
            None => break,
        }
    }
    widths
}

/// How many cells of each width there are.
fn counted<'c>(cells: impl Iterator<Item = &'c String>) -> BTreeMap<usize, usize> {
    let mut counts = BTreeMap::new();
    cells.for_each(|cell| *counts.entry(cell.width()).or_default() += 1);
    counts
}

/// About how many lines cells take in a column so wide.
fn lines(cells: &BTreeMap<usize, usize>, width: usize) -> usize {
    let high = |(cell, count): (&usize, &usize)| cell.div_ceil(width.max(1)) * count;
    cells.iter().map(high).sum()
}

/// One row; as many lines as its highest cell.
fn row_lines(row: &[String], columns: &[ColumnHead], widths: &[usize], out: &mut String) {
    let cells: Vec<Vec<String>> = row
        .iter()
        .zip(widths)
        .map(|(cell, &width)| folded(cell, width))
        .collect();
    let high = cells.iter().map(Vec::len).max().unwrap_or(0).max(1);
    for line_at in 0..high {
        let mut line = String::from(" ");
        for (at, lines) in cells.iter().enumerate() {
            let text = lines.get(line_at).map_or("", String::as_str);
            line.push(' ');
            line.push_str(&pad(text, widths[at], columns[at].right));
            line.push(' ');
        }
        out.push_str(line.trim_end());
        out.push('\n');
    }
}

fn folded(cell: &str, width: usize) -> Vec<String> {
    if cell.width() <= width {
        return vec![cell.to_owned()];
    }
    let mut lines = String::new();
    fold(cell, "", width, &mut lines);
    lines.lines().map(str::to_owned).collect()
}
