//! Why there is no name.

/// Why there is no name.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NameError {
    /// Not even the code alone fits the tag.
    TagTooShort {
        /// Characters of the tag.
        most: usize,
        /// Characters it needs at least.
        least: usize,
    },
}
