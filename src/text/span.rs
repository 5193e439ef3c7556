//! Where something stands: a file's number and a range of bytes in its text.
//!
//! Offsets count bytes of the text as held in memory, that is, after a byte-order mark was taken off. Turning them
//! into lines and columns is left to [`super::Sources`].

use std::ops::Range;

/// The number of a file in its [`super::Sources`].
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct FileId(pub u32);

impl FileId {
    /// The number as an index.
    pub fn index(self) -> usize {
        self.0 as usize
    }
}

/// A range of bytes in one file, `start` included, `end` not; empty when both are equal.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Span {
    /// The file.
    pub file: FileId,
    /// Offset of the first byte.
    pub start: u32,
    /// Offset of the first byte after.
    pub end: u32,
}

impl Span {
    /// A span over a range of a file's bytes.
    pub fn new(file: FileId, range: Range<u32>) -> Self {
        Self {
            file,
            start: range.start,
            end: range.end.max(range.start),
        }
    }

    /// The empty span before the byte at `offset`.
    pub fn at(file: FileId, offset: u32) -> Self {
        Self::new(file, offset..offset)
    }

    /// Length in bytes.
    pub fn len(self) -> u32 {
        self.end - self.start
    }

    /// Whether it covers no byte.
    pub fn is_empty(self) -> bool {
        self.start == self.end
    }

    /// The bytes as a range of indices.
    pub fn range(self) -> Range<usize> {
        self.start as usize..self.end as usize
    }
}
