//! Whose first flowers the seasons ahead are reckoned by.

/// Whose ages at the first flower a line goes by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FlowerAges {
    /// Those of so many of its own seedlings.
    OfLine(usize),
    /// Those of so many seedlings of all lines.
    OfAll(usize),
    /// Common practice, widened by so many seedlings of all lines.
    Practice(usize),
}
