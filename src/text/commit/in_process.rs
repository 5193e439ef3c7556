//! Readers and writers of one process, which know of each other whatever the system knows of locks.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// Folders that are held, each with the number of its readers, or [`WRITER`].
static HELD: Mutex<BTreeMap<PathBuf, usize>> = Mutex::new(BTreeMap::new());
/// In place of a number of readers.
const WRITER: usize = usize::MAX;

/// One reader or writer of a folder, for as long as this value lives.
#[derive(Debug)]
pub(super) struct InProcess(PathBuf);

impl InProcess {
    /// Counts a reader, or the writer; `None` while another is in its way.
    pub(super) fn of(folder: &Path, writes: bool) -> Option<InProcess> {
        let folder = folder.canonicalize().unwrap_or(folder.to_path_buf());
        let mut held = HELD.lock().unwrap_or_else(PoisonError::into_inner);
        let readers = match (held.get(&folder), writes) {
            (None, true) => WRITER,
            (None, false) => 1,
            (Some(&WRITER), _) | (Some(_), true) => return None,
            (Some(readers), false) => readers + 1,
        };
        held.insert(folder.clone(), readers);
        Some(InProcess(folder))
    }
}

impl Drop for InProcess {
    fn drop(&mut self) {
        let mut held = HELD.lock().unwrap_or_else(PoisonError::into_inner);
        match held.get_mut(&self.0) {
            Some(readers) if (2..WRITER).contains(readers) => *readers -= 1,
            _ => drop(held.remove(&self.0)),
        }
    }
}
