//! The system's refusals in its own bare words.
//!
//! A temporary file's errors name that file, which tells the grower nothing: the caller names what was to be written.

use std::io;

/// What the system said, without any path.
pub(super) fn bare_words(fault: &io::Error) -> String {
    let told = fault.to_string();
    match told.split_once(" at path \"") {
        Some((words, _)) => words.to_owned(),
        None => told,
    }
}
