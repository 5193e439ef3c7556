//! A table, declared once: its rows, then column by column a heading and how the cell is made from a row.
//!
//! ```text
//! Table::of(&self.plan)
//!     .titled("To be made")
//!     .figure("pods", |row| row.pods)
//!     .text("seed parent", |row| &row.seed)
//!     .number("worth of a pod", 3, |row| row.worth)
//! ```

use super::cell::Cell;

/// A table; every row has as many cells as there are columns.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Heading above the table, if any.
    pub title: Option<String>,
    /// Columns.
    pub columns: Vec<ColumnHead>,
    /// Rows of cells.
    pub rows: Vec<Vec<Cell>>,
    /// Rows beyond these, which a screen only counts.
    pub more: usize,
}

/// A column's heading; the unit belongs into it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ColumnHead {
    /// The heading.
    pub heading: String,
    /// Whether cells stand to the right, as numbers do.
    pub right: bool,
    /// Whether it says nothing without the column before it, as an error or a limit does.
    pub stays: bool,
}

impl Table {
    /// A table of these rows, still without columns.
    pub fn of<R: Copy>(rows: impl IntoIterator<Item = R>) -> Columns<R> {
        let rows: Vec<R> = rows.into_iter().collect();
        let table = Table {
            rows: vec![Vec::new(); rows.len()],
            ..Table::default()
        };
        Columns { rows, table }
    }

    /// A table whose columns only the data know, such as a day each; all cells stand to the left.
    ///
    /// # Panics
    /// If a row has not as many cells as there are headings.
    pub fn plain<H: Into<String>>(
        headings: impl IntoIterator<Item = H>,
        rows: impl IntoIterator<Item = Vec<Cell>>,
    ) -> Table {
        let headings = headings.into_iter();
        let columns: Vec<_> = headings.map(|of| ColumnHead::new(of, false)).collect();
        let rows: Vec<_> = rows.into_iter().collect();
        let filled = rows.iter().all(|cells| cells.len() == columns.len());
        assert!(filled, "a row has a cell for every column");
        Table {
            columns,
            rows,
            ..Table::default()
        }
    }
}

impl ColumnHead {
    fn new(heading: impl Into<String>, right: bool) -> ColumnHead {
        ColumnHead {
            heading: heading.into(),
            right,
            stays: false,
        }
    }
}

/// A table on its way: rows that are given one column after the other.
#[derive(Debug)]
pub struct Columns<R> {
    rows: Vec<R>,
    table: Table,
}

impl<R> From<Columns<R>> for Table {
    fn from(columns: Columns<R>) -> Table {
        columns.table
    }
}

impl<R: Copy> Columns<R> {
    /// Gives the table a heading.
    pub fn titled(mut self, title: impl Into<String>) -> Self {
        self.table.title = Some(title.into());
        self
    }

    /// Says how many rows there are beyond these.
    pub fn more(mut self, rows: usize) -> Self {
        self.table.more = rows;
        self
    }

    /// Adds a column that stands to the left, as words do.
    pub fn text<C: Into<Cell>>(self, heading: impl Into<String>, cell: impl FnMut(R) -> C) -> Self {
        self.column(ColumnHead::new(heading, false), cell)
    }

    /// Adds a column that stands to the right: counts, and numbers written out with what belongs to them.
    pub fn figure<C: Into<Cell>>(
        self,
        heading: impl Into<String>,
        cell: impl FnMut(R) -> C,
    ) -> Self {
        self.column(ColumnHead::new(heading, true), cell)
    }

    /// Adds a column of numbers with as many decimals in every row; `None` is missing.
    pub fn number<N: Into<Option<f64>>>(
        self,
        heading: impl Into<String>,
        decimals: u8,
        mut number: impl FnMut(R) -> N,
    ) -> Self {
        let cell = |number| Cell::Number(number, decimals);
        self.figure(heading, |row| number(row).into().map(cell))
    }

    /// Adds two columns of numbers, a least and a most, which stays beside the least.
    pub fn limits(
        self,
        [from, to]: [&str; 2],
        decimals: u8,
        limits: impl Fn(R) -> Option<(f64, f64)>,
    ) -> Self {
        self.number(from, decimals, |row| limits(row).map(|of| of.0))
            .number(to, decimals, |row| limits(row).map(|of| of.1))
            .beside()
    }

    /// Keeps the last column beside the one before it, without which it says nothing.
    pub fn beside(mut self) -> Self {
        if let Some(last) = self.table.columns.last_mut() {
            last.stays = true;
        }
        self
    }

    /// Declares what only some tables have: columns, or a title.
    pub fn when(self, wanted: bool, columns: impl FnOnce(Self) -> Self) -> Self {
        if wanted { columns(self) } else { self }
    }

    /// Adds a column of words that stands only where a row has some; blank where a row has none.
    pub fn text_if_any<'c>(
        self,
        heading: &str,
        mut words: impl FnMut(R) -> Option<&'c str>,
    ) -> Self {
        let any = self.rows.iter().any(|row| words(*row).is_some());
        self.when(any, |columns| {
            columns.text(heading, |row| words(row).unwrap_or_default())
        })
    }

    /// Adds a column of counts that stands only where one is above zero.
    pub fn count_if_any(self, heading: &str, count: impl Fn(R) -> usize) -> Self {
        let any = self.rows.iter().any(|row| count(*row) > 0);
        self.when(any, |columns| columns.figure(heading, count))
    }

    /// Adds columns for each of several things, such as a year or a trait.
    pub fn each<T>(
        self,
        of: impl IntoIterator<Item = T>,
        columns: impl FnMut(Self, T) -> Self,
    ) -> Self {
        of.into_iter().fold(self, columns)
    }

    fn column<C: Into<Cell>>(mut self, head: ColumnHead, mut cell: impl FnMut(R) -> C) -> Self {
        self.table.columns.push(head);
        for (cells, row) in self.table.rows.iter_mut().zip(&self.rows) {
            cells.push(cell(*row).into());
        }
        self
    }
}
