//! What a killed writer left: taken as done, or taken back.
//!
//! The intent is locked as long as its writer runs. One that is locked is waited for, and where the system knows no locks
//! it is left as it is: its writer may be at work, and to take its change back under its hands would leave half of it.
//!
//! Files are replaced in their order and taken back in the opposite one, each on disk before the next is touched. So the
//! change was made whole exactly when its last file has its new bytes, whatever has become of the others since.

use super::change::FileChange;
use super::hold::Hold;
use super::intent::{INTENT, Intent, read, this_computer};
use super::write::{taken_back, unchanged, within};
use crate::text::disk::remove_file;
use crate::text::left_behind;
use crate::text::locks::{Locked, locked, patiently};
use crate::text::steps::Steps;
use crate::text::unwritten::WhyUnwritten;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::Path;

/// What was found of a change that was cut short.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum PutRight {
    /// Nothing was cut short.
    Nothing,
    /// All of it had been written.
    Done,
    /// Files were given their old bytes. Those named had been changed by another program since and were left alone.
    TakenBack {
        /// Files that were left alone.
        left_alone: Vec<String>,
    },
}

/// Whether a change was cut short in a registry's folder and has not been put right yet.
pub fn unsettled(folder: &Path) -> bool {
    fs::symlink_metadata(folder.join(INTENT)).is_ok()
}

/// Files of a change that is not settled which hold their new bytes already; none where what there is of it cannot be read.
pub fn begun(folder: &Path) -> Vec<String> {
    let is_file = |about: fs::Metadata| about.is_file();
    let there = fs::symlink_metadata(folder.join(INTENT)).is_ok_and(is_file);
    let bytes = fs::read(folder.join(INTENT)).unwrap_or_default();
    let found = read(&bytes).filter(|_| there);
    let changes = found.into_iter().flat_map(|intent| intent.changes);
    let is_new = |of: &FileChange| {
        let is_inside = within(&of.path).is_ok();
        is_inside && of.was != of.now && unchanged(folder, &of.path, of.now.as_deref()).is_ok()
    };
    changes.filter(is_new).map(|change| change.path).collect()
}

/// Finishes or takes back a change that was cut short; waits up to ten seconds for one that is being written.
///
/// # Errors
/// If a file cannot be given its old bytes, or the intent is being written, may be being written, is another computer's, is not one
/// podbook wrote or cannot be taken away.
pub fn put_right(hold: &Hold, steps: &dyn Steps) -> Result<PutRight, WhyUnwritten> {
    settle(hold, false, steps)
}

/// As [`put_right`], since the grower says that no podbook is writing: also a change of another computer, and where the system knows
/// no locks.
///
/// # Errors
/// As [`put_right`].
pub fn put_right_anyway(hold: &Hold, steps: &dyn Steps) -> Result<PutRight, WhyUnwritten> {
    settle(hold, true, steps)
}

/// An intent that no running program holds, open and locked; `None` where there is none.
fn unheld(intent: &Path, anyway: bool) -> Result<Option<File>, WhyUnwritten> {
    let mut why = WhyUnwritten::BeingWritten;
    let found = patiently(|| {
        match fs::symlink_metadata(intent) {
            Err(fault) if fault.kind() == io::ErrorKind::NotFound => return Ok(Some(None)),
            // A folder, a pipe or a link: podbook makes a plain file.
            about if !about.as_ref().is_ok_and(fs::Metadata::is_file) => {
                return Err(WhyUnwritten::NoIntent);
            }
            _ => {}
        }
        let file = match File::open(intent) {
            Err(fault) if fault.kind() == io::ErrorKind::NotFound => return Ok(Some(None)),
            file => file?,
        };
        match locked(&file, intent, File::try_lock)? {
            Locked::Ours => return Ok(Some(Some(file))),
            Locked::Unknown if anyway => return Ok(Some(Some(file))),
            Locked::Unknown => why = WhyUnwritten::NoLocks,
            Locked::Others => {}
        }
        Ok::<_, WhyUnwritten>(None)
    })?;
    found.ok_or(why)
}

fn settle(hold: &Hold, anyway: bool, steps: &dyn Steps) -> Result<PutRight, WhyUnwritten> {
    let folder = hold.folder();
    let intent = folder.join(INTENT);
    let Some(mut file) = unheld(&intent, anyway)? else {
        return Ok(PutRight::Nothing);
    };
    let mut bytes = Vec::new();
    file.read_to_end(&mut bytes)?;
    let Intent { by, changes } = read(&bytes).ok_or(WhyUnwritten::NoIntent)?;
    if by != this_computer() && !anyway {
        // A synced folder may have brought some of its files and not yet the others.
        return Err(WhyUnwritten::OtherComputer(by));
    }
    if changes.iter().any(|change| within(&change.path).is_err()) {
        return Err(WhyUnwritten::NoIntent);
    }
    for change in &changes {
        // Its writer is gone, and so are those of the files it had begun.
        left_behind::clear(folder.join(&change.path).parent().unwrap_or(folder));
    }
    let is =
        |path: &str, bytes: &Option<Vec<u8>>| unchanged(folder, path, bytes.as_deref()).is_ok();
    if changes.last().is_none_or(|last| is(&last.path, &last.now)) {
        remove_file(&intent, steps)?;
        return Ok(PutRight::Done);
    }
    let foreign = changes
        .iter()
        .filter(|change| !is(&change.path, &change.was) && !is(&change.path, &change.now));
    let left_alone: Vec<String> = foreign.map(|change| change.path.clone()).collect();
    let (left, why) = taken_back(folder, &changes, steps);
    if let Some(path) = left.into_iter().next() {
        let why = why.unwrap_or(WhyUnwritten::Changed);
        return Err(WhyUnwritten::StillNew(path, Box::new(why)));
    }
    remove_file(&intent, steps)?;
    Ok(PutRight::TakenBack { left_alone })
}
