//! Holding a registry: one writer at a time, and no reader while it writes.
//!
//! The lock is the system's own, on a hidden file in the registry's folder that holds nothing and stays. The system lets
//! go of it when the program ends, however it ends. Where the system knows no locks only the threads of one process keep
//! out of each other's way; what another program writes meanwhile is still noticed, since files are compared with what was
//! read before they are replaced, and a change that may still be written is never put right.

use super::in_process::InProcess;
use crate::text::locks::{Locked, bears, locked, patiently};
use crate::text::refusal::system_words;
use std::fs::{self, File, OpenOptions};
use std::io;
use std::path::{Path, PathBuf};

/// The file that is locked.
pub const LOCK: &str = ".podbook-lock";

/// A registry that is held for as long as this value lives.
#[derive(Debug)]
pub struct Hold {
    folder: PathBuf,
    /// The locked file; none where the system knows no locks.
    file: Option<File>,
    _in_process: InProcess,
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
        if !can_be_opened(&folder.join(LOCK)) {
            return Err(NoHold::InTheWay);
        }
        let held = patiently(|| Hold::tried(folder, true));
        let held = held.map_err(|fault| NoHold::System(system_words(&fault)))?;
        held.ok_or(NoHold::Busy)
    }

    /// Keeps writers away while a registry is read. Nothing when one does not let go in time: then it is read all the same.
    pub fn to_read(folder: &Path) -> Option<Hold> {
        if !can_be_opened(&folder.join(LOCK)) {
            return None;
        }
        let held = patiently(|| Hold::tried(folder, false));
        held.ok().flatten()
    }

    /// The registry's folder.
    pub fn folder(&self) -> &Path {
        &self.folder
    }

    /// Whether the system keeps other programs away.
    pub fn is_locked(&self) -> bool {
        self.file.is_some() && self.stands()
    }

    /// Whether the locked file still bears its name; if not, another program may have locked the one that does, and written.
    pub(super) fn stands(&self) -> bool {
        let of = self.file.as_ref();
        of.is_none_or(|file| bears(file, &self.folder.join(LOCK)))
    }

    /// One attempt; `None` while another is in the way.
    fn tried(folder: &Path, writes: bool) -> io::Result<Option<Hold>> {
        let Some(in_process) = InProcess::of(folder, writes) else {
            return Ok(None);
        };
        let path = folder.join(LOCK);
        let mut held = Hold {
            folder: folder.to_path_buf(),
            file: None,
            _in_process: in_process,
        };
        let file = match writes {
            true => opened(&path)?,
            false => match File::open(&path) {
                Ok(file) => file,
                // No program has ever written here, or the file may not be read.
                Err(_) => return Ok(Some(held)),
            },
        };
        let lock = match writes {
            true => File::try_lock,
            false => File::try_lock_shared,
        };
        match locked(&file, &path, lock)? {
            Locked::Ours => held.file = Some(file),
            Locked::Others => return Ok(None),
            Locked::Unknown => {}
        }
        Ok(Some(held))
    }
}

/// The lock's file, which is made where it is not there. That of another account, which this one may not write, is opened
/// for reading: a lock needs no more.
fn opened(path: &Path) -> io::Result<File> {
    let mut options = OpenOptions::new();
    let made = options.create(true).truncate(false).write(true).open(path);
    made.or_else(|fault| File::open(path).map_err(|_| fault))
}

/// Whether a path is a file or nothing yet: to open a pipe would wait for ever.
fn can_be_opened(path: &Path) -> bool {
    fs::metadata(path).map_or(true, |about| about.is_file())
}
