//! The system's lock on a file, and waiting for what another holds.

use super::identity::Identity;
use std::fs::{File, TryLockError};
use std::io;
use std::path::Path;
use std::time::Duration;

/// How long one waits between two tries.
const PAUSE: Duration = Duration::from_millis(20);
/// Tries until one gives up: ten seconds.
const TRIES: u32 = 500;

/// What came of an attempt to lock a file.
pub(super) enum Locked {
    /// It is locked, and still bears its name.
    Ours,
    /// Another holds it, or another file bears its name by now.
    Others,
    /// The system or the disk knows no locks.
    Unknown,
}

/// Locks a file that was opened under a name.
///
/// # Errors
/// What the system said when it refused.
pub(super) fn locked(
    file: &File,
    path: &Path,
    lock: impl Fn(&File) -> Result<(), TryLockError>,
) -> io::Result<Locked> {
    match lock(file) {
        Ok(()) if bears(file, path) => Ok(Locked::Ours),
        Ok(()) | Err(TryLockError::WouldBlock) => Ok(Locked::Others),
        Err(TryLockError::Error(fault)) if fault.kind() == io::ErrorKind::Unsupported => {
            Ok(Locked::Unknown)
        }
        Err(TryLockError::Error(fault)) => Err(fault),
    }
}

/// Whether an open file is the one that bears a name.
pub(super) fn bears(file: &File, path: &Path) -> bool {
    Identity::of_file(file) == Identity::of(path)
}

/// Tries until something is had, for ten seconds; `None` if it was not.
///
/// # Errors
/// That of the first try that gives one.
pub(super) fn patiently<T, E>(
    mut tried: impl FnMut() -> Result<Option<T>, E>,
) -> Result<Option<T>, E> {
    for _ in 0..TRIES {
        if let Some(had) = tried()? {
            return Ok(Some(had));
        }
        std::thread::sleep(PAUSE);
    }
    Ok(None)
}
