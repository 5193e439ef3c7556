//! One cell of a table: words, a number with its decimals, a count, or nothing that is known.

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Words.
    Text(String),
    /// A number and how many decimals are shown.
    Number(f64, u8),
    /// A whole number.
    Count(u64),
    /// Not known, not read, not applicable: never zero.
    Missing,
}

impl From<&str> for Cell {
    fn from(text: &str) -> Cell {
        Cell::Text(text.to_owned())
    }
}

impl From<String> for Cell {
    fn from(text: String) -> Cell {
        Cell::Text(text)
    }
}

impl From<&String> for Cell {
    fn from(text: &String) -> Cell {
        Cell::Text(text.clone())
    }
}

impl From<usize> for Cell {
    fn from(count: usize) -> Cell {
        Cell::Count(count as u64)
    }
}

impl From<u32> for Cell {
    fn from(count: u32) -> Cell {
        Cell::Count(u64::from(count))
    }
}

impl From<u64> for Cell {
    fn from(count: u64) -> Cell {
        Cell::Count(count)
    }
}

impl<T: Into<Cell>> From<Option<T>> for Cell {
    fn from(cell: Option<T>) -> Cell {
        cell.map_or(Cell::Missing, Into::into)
    }
}

impl From<&Option<String>> for Cell {
    fn from(text: &Option<String>) -> Cell {
        text.as_deref().into()
    }
}
