//! One text parsed as one record, in the dialect of every file.

use ron::Options;
use ron::extensions::Extensions;
use serde::{Deserialize, Serialize};

/// The dialect of every file: `Some(x)` may be written `x`.
pub(super) fn dialect() -> Options {
    Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

/// The word of the files for a member of a list of words, such as `lab_copy`.
///
/// # Panics
/// If it is more than a word.
pub fn word_of(of: impl Serialize) -> String {
    ron::to_string(&of).expect("a word of the files")
}

/// Parses one text as one record, the plain way.
pub(super) fn typed<'t, T: Deserialize<'t>>(text: &'t str) -> Result<T, ron::error::SpannedError> {
    dialect().from_str(text)
}
