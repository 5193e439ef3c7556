//! What is to be written of one file.

/// One file of a change.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct FileChange {
    /// The path relative to the registry's folder, with `/`.
    pub path: String,
    /// The bytes that must be there before; none when the file must not be there.
    pub was: Option<Vec<u8>>,
    /// The bytes to be there afterwards; none when the file is to go.
    pub now: Option<Vec<u8>>,
}
