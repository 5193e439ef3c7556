//! A table in the width of the terminal: words are folded within their column, numbers are never cut.

use super::folding::{cell_text, fold, unbroken};
use crate::report::{ColumnHead, Table};
use crate::text::one_line;
use std::borrow::Cow;
use std::cmp::Reverse;
use std::collections::BTreeMap;
use unicode_width::UnicodeWidthStr;

/// A column of words is not folded narrower than this.
const NARROWEST: usize = 11;

/// Where nothing else fits, figures of several words are folded too.
const FIGURES_TOO: usize = 0;

/// From the edge to what stands below its row.
const BELOW: &str = "      ";

/// The cells of a table as text, its headings in front where it has any.
struct Cells<'t> {
    rows: Vec<Vec<Shown<'t>>>,
    columns: &'t [ColumnHead],
    extents: Vec<Extent>,
}

/// A cell as text, and the columns it takes on a terminal.
struct Shown<'t> {
    text: Cow<'t, str>,
    width: usize,
}

impl<'t> From<Cow<'t, str>> for Shown<'t> {
    fn from(text: Cow<'t, str>) -> Self {
        let width = width_of(&text);
        Shown { text, width }
    }
}

/// How much room the cells of a column take.
#[derive(Default)]
struct Extent {
    widest: usize,
    longest_word: usize,
    /// Of all rows but the first.
    widest_number: usize,
    /// How many cells of each width there are.
    widths: BTreeMap<usize, usize>,
}

impl Extent {
    fn add(&mut self, row: usize, cell: &Shown) {
        self.widest = self.widest.max(cell.width);
        // No word is longer than its cell.
        if cell.width > self.longest_word {
            let words = unbroken(&cell.text).map(width_of);
            self.longest_word = words.fold(self.longest_word, usize::max);
        }
        if row > 0 {
            self.widest_number = self.widest_number.max(cell.width);
        }
        *self.widths.entry(cell.width).or_default() += 1;
    }

    /// About how many lines its cells take in a column so wide.
    fn lines(&self, width: usize) -> usize {
        let high = |(cell, count): (&usize, &usize)| cell.div_ceil(width.max(1)) * count;
        self.widths.iter().map(high).sum()
    }
}

/// What a drawn table takes: by how much its widest line is too long, and how many lines it has.
type Taken = (usize, usize);

/// The table in lines; columns of words, and headings, give way until it fits `width`. Where that is not enough, words
/// are folded narrower, or those of the last column stand below their row, or columns go on in a further table that
/// repeats the first: whichever fits in the fewest lines.
pub fn table_lines(table: &Table, width: usize) -> String {
    let cells = Cells::of(table);
    let all: Vec<usize> = (0..table.columns.len()).collect();
    let whole = cells.fitted(&all, width, NARROWEST);
    if columns_take(&whole) <= width {
        return cells.drawn(&[Part::of(all, whole)]);
    }
    cells.drawn(&cells.best(&all, width))
}

/// Columns drawn side by side.
struct Part {
    at: Vec<usize>,
    widths: Vec<usize>,
    /// A column whose words stand below their row, and the width they are folded to.
    below: Option<(usize, usize)>,
}

impl Part {
    fn of(at: Vec<usize>, widths: Vec<usize>) -> Part {
        Part {
            at,
            widths,
            below: None,
        }
    }
}

/// What columns take with the blanks between them.
fn columns_take(widths: &[usize]) -> usize {
    widths.iter().map(|width| width + 2).sum()
}

impl<'t> Cells<'t> {
    fn of(table: &'t Table) -> Cells<'t> {
        let headings = table.columns.iter().map(|column| one_line(&column.heading));
        let headings: Vec<Shown> = headings.map(Shown::from).collect();
        let mut rows = Vec::with_capacity(table.rows.len() + 1);
        if headings.iter().any(|heading| !heading.text.is_empty()) {
            rows.push(headings);
        }
        let body = table.rows.iter();
        rows.extend(body.map(|row| row.iter().map(|cell| cell_text(cell).into()).collect()));
        let mut extents: Vec<Extent> = table.columns.iter().map(|_| Extent::default()).collect();
        for (row, cells) in rows.iter().enumerate() {
            for (extent, cell) in extents.iter_mut().zip(cells) {
                extent.add(row, cell);
            }
        }
        Cells {
            rows,
            columns: &table.columns,
            extents,
        }
    }

    /// Of the ways to draw the columns in a width too small for them the one that overruns least, then with the fewest
    /// lines; of equals the first.
    fn best(&self, all: &[usize], width: usize) -> Vec<Part> {
        let narrow = vec![Part::of(all.to_vec(), self.fitted(all, width, 1))];
        let mut best = (self.taken(&narrow, width), narrow);
        let others = [Self::with_last_below, Self::in_parts];
        for way in others.map(|way| way(self, all, width)) {
            // Folding only adds to these lines, so a way that has too many already need not be measured.
            if best.0.0 == 0 && best.0.1 <= self.least_lines(&way) {
                continue;
            }
            let taken = self.taken(&way, width);
            if taken < best.0 {
                best = (taken, way);
            }
        }
        best.1
    }

    /// Lines a way takes if no cell is folded.
    fn least_lines(&self, way: &[Part]) -> usize {
        let of = |part: &Part| {
            let below = part.below.map_or(0, |(column, _)| {
                let cells = self.rows.iter().filter_map(|row| row.get(column));
                cells.filter(|cell| !cell.text.is_empty()).count()
            });
            self.rows.len() + below
        };
        way.iter().map(of).sum()
    }

    fn taken(&self, way: &[Part], width: usize) -> Taken {
        let (mut widest, mut count) = (0, 0);
        let mut row = String::new();
        self.each_row(way, &mut row, |row| {
            for line in row.lines() {
                widest = widest.max(width_of(line));
                count += 1;
            }
            row.clear();
        });
        (widest.saturating_sub(width), count)
    }

    /// Widths of some columns: as wide as their cells, less where the line would be too long.
    fn fitted(&self, columns: &[usize], width: usize, narrowest: usize) -> Vec<usize> {
        let extents: Vec<&Extent> = columns.iter().map(|&at| &self.extents[at]).collect();
        let mut widths: Vec<usize> = extents.iter().map(|extent| extent.widest).collect();
        let least: Vec<usize> = columns
            .iter()
            .zip(&widths)
            .map(|(&at, &width)| self.least(at, narrowest).min(width))
            .collect();
        while columns_take(&widths) > width {
            // The column gives way whose cells need the fewest further lines for it; among equals the widest.
            let more_lines =
                |at: usize| extents[at].lines(widths[at] - 1) - extents[at].lines(widths[at]);
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
        let extent = &self.extents[at];
        match self.columns[at].right && narrowest > FIGURES_TOO {
            true => extent.longest_word.max(extent.widest_number),
            false => extent.longest_word.max(narrowest),
        }
    }

    fn drawn(&self, way: &[Part]) -> String {
        let mut out = String::new();
        self.each_row(way, &mut out, |_| ());
        out
    }

    /// Writes row after row, with an empty line between parts, and calls `then` after each row.
    fn each_row(&self, way: &[Part], out: &mut String, mut then: impl FnMut(&mut String)) {
        for (nth, part) in way.iter().enumerate() {
            if nth > 0 {
                out.push('\n');
            }
            for row in &self.rows {
                self.row_lines(row, part, out);
                if let Some((column, width)) = part
                    .below
                    .filter(|(column, _)| !row[*column].text.is_empty())
                {
                    fold(&format!("{BELOW}{}", row[column].text), BELOW, width, out);
                }
                then(out);
            }
        }
    }

    /// One row; as many lines as its highest cell.
    fn row_lines(&self, row: &[Shown], part: &Part, out: &mut String) {
        let cells = part.at.iter().zip(&part.widths);
        if cells.clone().all(|(&at, &width)| row[at].width <= width) {
            let whole = cells.map(|(&at, &width)| (at, &*row[at].text, width - row[at].width));
            return self.line(whole, out);
        }
        let folded: Vec<Vec<Cow<str>>> =
            cells.map(|(&at, &width)| folded(&row[at], width)).collect();
        let high = folded.iter().map(Vec::len).max().unwrap_or(0).max(1);
        for line_at in 0..high {
            let texts = folded
                .iter()
                .map(|lines| lines.get(line_at).map_or("", |line| line));
            let cells = part.at.iter().zip(&part.widths).zip(texts);
            let cells =
                cells.map(|((&at, &width), text)| (at, text, width.saturating_sub(width_of(text))));
            self.line(cells, out);
        }
    }

    /// One line of cells, each given with its column and the blanks that fill it up; without the blanks at the end.
    fn line<'c>(&self, cells: impl Iterator<Item = (usize, &'c str, usize)>, out: &mut String) {
        let start = out.len();
        out.push(' ');
        for (at, text, blanks) in cells {
            let (before, after) = match self.columns[at].right {
                true => (blanks, 0),
                false => (0, blanks),
            };
            blank(1 + before, out);
            out.push_str(text);
            blank(after + 1, out);
        }
        out.truncate(start + out[start..].trim_end().len());
        out.push('\n');
    }

    /// The words of the last column below their rows.
    fn with_last_below(&self, all: &[usize], width: usize) -> Vec<Part> {
        let [first @ .., last] = all else {
            return Vec::new();
        };
        vec![Part {
            at: first.to_vec(),
            widths: self.fitted(first, width, NARROWEST),
            below: Some((*last, width)),
        }]
    }

    /// Columns one below the other in several tables, each beginning with the first; those that belong together stay
    /// together where the width holds them.
    fn in_parts(&self, all: &[usize], width: usize) -> Vec<Part> {
        let mut together: Vec<Vec<usize>> = Vec::new();
        for &at in all.iter().skip(1) {
            match together.last_mut() {
                Some(part) if self.columns[at].stays => part.push(at),
                _ => together.push(vec![at]),
            }
        }
        let holds = |part: &[usize]| {
            columns_take(&self.fitted(&[&all[..1], part].concat(), width, 1)) <= width
        };
        let parts = together.into_iter().flat_map(|part| match holds(&part) {
            true => vec![part],
            false => part.into_iter().map(|at| vec![at]).collect(),
        });
        let mut tables: Vec<Vec<usize>> = Vec::new();
        for part in parts {
            let with = |table: &Vec<usize>| [table.as_slice(), &part].concat();
            let fits = |table: &Vec<usize>| {
                columns_take(&self.fitted(&with(table), width, NARROWEST)) <= width
            };
            match tables.last_mut() {
                Some(table) if fits(table) => table.extend(&part),
                _ => tables.push([&all[..1], &part].concat()),
            }
        }
        let fitted = |table: Vec<usize>| {
            let ways = [NARROWEST, 1, FIGURES_TOO].map(|least| self.fitted(&table, width, least));
            let mut narrower = ways.iter();
            let fits = narrower.find(|widths| columns_take(widths) <= width);
            let widths = fits.unwrap_or(&ways[1]).clone();
            Part::of(table, widths)
        };
        tables.into_iter().map(fitted).collect()
    }
}

/// Columns a text without controls takes on a terminal.
fn width_of(text: &str) -> usize {
    match text.is_ascii() {
        true => text.len(),
        false => text.width(),
    }
}

/// Writes blanks.
fn blank(count: usize, out: &mut String) {
    out.extend(std::iter::repeat_n(' ', count));
}

fn folded<'c>(cell: &'c Shown, width: usize) -> Vec<Cow<'c, str>> {
    if cell.width <= width {
        return vec![Cow::Borrowed(&cell.text)];
    }
    let mut lines = String::new();
    fold(&cell.text, "", width, &mut lines);
    lines.lines().map(|line| line.to_owned().into()).collect()
}
