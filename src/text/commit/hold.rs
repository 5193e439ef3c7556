//! Holding a registry: one writer at a time, and no reader while it writes.
//!
//! The lock is the system's own, on a hidden file in the registry's folder that holds nothing and stays. The system lets
//! go of it when the program ends, however it ends. Where the system knows no locks nothing is held, and a change made
//! meanwhile is still noticed, because files are compared with what was read before they are replaced.

use crate::text::refusal::system_words;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io;
use std::path::{Path, PathBuf};
use std::time::Duration;

/// The file that is locked.
pub const LOCK: &str = ".podbook-lock";
/// How long one waits between two tries.
const PAUSE: Duration = Duration::from_millis(20);
/// Tries of a writer: ten seconds.
const WRITER_TRIES: u32 = 500;
/// Tries of a reader: as long as a writer takes at most, then it reads all the same.
const READER_TRIES: u32 = 500;

/// A registry that is held for as long as this value lives.
#[derive(Debug)]
pub struct Hold {
    folder: PathBuf,
    /// The locked file; none where the system knows no locks.
    _file: Option<File>,
}

/// Why a registry is not held.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum NoHold {
    /// Another program holds it, and did not let go within the time a writer waits.
    Busy,
    /// What bears the name of the lock is no file.
    InTheWay,
    /// The system refused, in its own words.
    System(String),
}

impl Hold {
    /// Holds a registry for writing; waits up to ten seconds for another writer or reader.
    ///
    /// # Errors
    /// If another program does not let go, or the lock's file cannot be made.
    pub fn to_write(folder: &Path) -> Result<Hold, NoHold> {
        let path = folder.join(LOCK);
        if !can_be_opened(&path) {
            return Err(NoHold::InTheWay);
        }
        let file = OpenOptions::new()
            .create(true)
            .truncate(false)
            .write(true)
            .open(&path)
            .map_err(|fault| NoHold::System(system_words(&fault)))?;
        let file = locked(file, WRITER_TRIES, File::try_lock)?;
        Ok(Hold {
            folder: folder.to_path_buf(),
            _file: file,
        })
    }

    /// Keeps writers away while a registry is read; nothing when none has ever written here, or when one does not let
    /// go in time.
    pub fn to_read(folder: &Path) -> Option<Hold> {
        let path = folder.join(LOCK);
        let path = Some(path).filter(|path| can_be_opened(path))?;
        let file = File::open(path).ok()?;
        let file = locked(file, READER_TRIES, File::try_lock_shared).ok()?;
        Some(Hold {
            folder: folder.to_path_buf(),
            _file: file,
        })
    }

    /// The registry's folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }
}

/// Whether a path is a file or nothing yet: to open a pipe would wait for ever.
fn can_be_opened(path: &Path) -> bool {
    fs::metadata(path).map_or(true, |about| about.is_file())
}

/// The file once it is locked; `None` where the system knows no locks.
fn locked(
    file: File,
    tries: u32,
    lock: impl Fn(&File) -> Result<(), TryLockError>,
) -> Result<Option<File>, NoHold> {
    for _ in 0..tries {
        match lock(&file) {
            Ok(()) => return Ok(Some(file)),
            Err(TryLockError::WouldBlock) => std::thread::sleep(PAUSE),
            Err(TryLockError::Error(fault)) if fault.kind() == io::ErrorKind::Unsupported => {
                return Ok(None);
            }
            Err(TryLockError::Error(fault)) => return Err(NoHold::System(system_words(&fault))),
        }
    }
    Err(NoHold::Busy)
}
