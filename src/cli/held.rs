//! Holding a registry while it is read, and saying what was put right of what a killed program left.

use super::outcome::shown;
use crate::recording::book;
use crate::recording::voice::Voice;
use crate::report::unrecorded::{not_opened, settled};
use crate::text::commit::Hold;
use std::path::Path;

/// Keeps writers away while a registry is read, and puts right what a killed one left, where that can be done.
pub fn held_to_read(folder: &Path) -> (Option<Hold>, String) {
    let (hold, found) = book::held_to_read(folder);
    let told = match found {
        Ok(found) => settled(&found),
        Err(why) => format!("{}\n", not_opened(&shown(folder), &why, Voice::Keyboard)),
    };
    (hold, told)
}
