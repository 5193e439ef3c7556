//! A table in the width of the terminal: words are folded within their column, numbers are never cut.

use super::folding::{cell_text, fold, pad, unbroken};
use crate::report::{ColumnHead, Table};
use crate::text::one_line;
use std::cmp::Reverse;
use std::collections::BTreeMap;
use unicode_width::UnicodeWidthStr;

/// A column of words is not folded narrower than this.
const NARROWEST: usize = 11;

/// From the edge to what stands below its row.
const BELOW: &str = "      ";

/// The cells of a table as text, its headings in front where it has any.
struct Cells<'t> {
    rows: Vec<Vec<String>>,
    columns: &'t [ColumnHead],
}

/// The table in lines; columns of words, and headings, give way until it fits `width`. Where that is not enough, words
/// are folded narrower, or those of the last column stand below their row, or columns go on in a further table that
/// repeats the first: whichever fits in the fewest lines.
pub fn table_lines(table: &Table, width: usize) -> String {
    let headings: Vec<String> = table
        .columns
        .iter()
        .map(|column| one_line(&column.heading).into_owned())
        .collect();
    let mut rows: Vec<Vec<String>> = Vec::with_capacity(table.rows.len() + 1);
    if headings.iter().any(|heading| !heading.is_empty()) {
        rows.push(headings);
    }
    let body = table.rows.iter();
    rows.extend(body.map(|row| row.iter().map(cell_text).collect()));
    let cells = Cells {
        rows,
        columns: &table.columns,
    };
    let all: Vec<usize> = (0..table.columns.len()).collect();
    let whole = cells.fitted(&all, width, NARROWEST);
    if taken(&whole) <= width {
        return cells.drawn(&all, &whole, None);
    }
    let ways = [
        cells.drawn(&all, &cells.fitted(&all, width, 1), None),
        cells.with_last_below(&all, width),
        cells.in_parts(&all, width),
    ];
    let cost = |way: &String| {
        let widest = way.lines().map(UnicodeWidthStr::width).max().unwrap_or(0);
        (widest.saturating_sub(width), way.lines().count())
    };
    ways.into_iter().min_by_key(cost).unwrap_or_default()
}

/// What columns take with the blanks between them.
fn taken(widths: &[usize]) -> usize {
    widths.iter().map(|width| width + 2).sum()
}

impl Cells<'_> {
    fn column(&self, at: usize) -> impl Iterator<Item = &String> {
        self.rows.iter().filter_map(move |row| row.get(at))
    }

    /// Widths of some columns: as wide as their cells, less where the line would be too long.
    fn fitted(&self, columns: &[usize], width: usize, narrowest: usize) -> Vec<usize> {
        let widest = |&at: &usize| self.column(at).map(|cell| cell.width()).max().unwrap_or(0);
        let mut widths: Vec<usize> = columns.iter().map(widest).collect();
        let least: Vec<usize> = columns
            .iter()
            .zip(&widths)
            .map(|(&at, &width)| self.least(at, narrowest).min(width))
            .collect();
        let cells: Vec<BTreeMap<usize, usize>> =
            columns.iter().map(|&at| counted(self.column(at))).collect();
        while taken(&widths) > width {
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

    /// How narrow a column may become: a number and its sign stay together, only the heading above them is folded.
    fn least(&self, at: usize, narrowest: usize) -> usize {
        let longest_word = |text: &String| {
            let words = unbroken(text).map(UnicodeWidthStr::width);
            words.max().unwrap_or(0)
        };
        let words = self.column(at).map(longest_word).max().unwrap_or(0);
        if self.columns[at].right {
            let numbers = self.column(at).skip(1).map(|cell| cell.width());
            words.max(numbers.max().unwrap_or(0))
        } else {
            words.max(narrowest)
        }
    }

    /// Some columns in these widths; the words of column `below` stand under their rows, folded to a width.
    fn drawn(&self, at: &[usize], widths: &[usize], below: Option<(usize, usize)>) -> String {
        let mut out = String::new();
        let rights: Vec<bool> = at.iter().map(|&at| self.columns[at].right).collect();
        for row in &self.rows {
            let cells: Vec<&str> = at.iter().map(|&at| row[at].as_str()).collect();
            row_lines(&cells, &rights, widths, &mut out);
            if let Some((column, width)) = below.filter(|(column, _)| !row[*column].is_empty()) {
                fold(&format!("{BELOW}{}", row[column]), BELOW, width, &mut out);
            }
        }
        out
    }

    /// The words of the last column below their rows.
    fn with_last_below(&self, all: &[usize], width: usize) -> String {
        let [first @ .., last] = all else {
            return String::new();
        };
        let widths = self.fitted(first, width, NARROWEST);
        self.drawn(first, &widths, Some((*last, width)))
    }

    /// Columns one below the other in several tables, each beginning with the first; those that belong together stay
    /// together.
    fn in_parts(&self, all: &[usize], width: usize) -> String {
        let mut parts: Vec<Vec<usize>> = Vec::new();
        for &at in all.iter().skip(1) {
            match parts.last_mut() {
                Some(part) if self.columns[at].stays => part.push(at),
                _ => parts.push(vec![at]),
            }
        }
        let mut tables: Vec<Vec<usize>> = Vec::new();
        for part in parts {
            let with = |table: &Vec<usize>| [table.as_slice(), &part].concat();
            let fits =
                |table: &Vec<usize>| taken(&self.fitted(&with(table), width, NARROWEST)) <= width;
            match tables.last_mut() {
                Some(table) if fits(table) => table.extend(&part),
                _ => tables.push([&all[..1], &part].concat()),
            }
        }
        let drawn =
            |table: &Vec<usize>| self.drawn(table, &self.fitted(table, width, NARROWEST), None);
        tables.iter().map(drawn).collect::<Vec<_>>().join("\n")
    }
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
fn row_lines(row: &[&str], rights: &[bool], widths: &[usize], out: &mut String) {
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
            line.push_str(&pad(text, widths[at], rights[at]));
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
