//! The system's refusals in its own bare words.
//!
//! A temporary file's errors name that file, which tells the grower nothing: the caller names what was to be written.

use std::io;

/// What the system said, without any path.
pub(super) fn bare_words(fault: &io::Error) -> String {
    let inner = fault.get_ref().and_then(|inner| inner.source());
    let inner = inner.and_then(|inner| inner.downcast_ref::<io::Error>());
    inner.unwrap_or(fault).to_string()
}
