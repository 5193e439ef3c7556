//! What a killed writer left: taken as done, or taken back.
//!
//! Files are replaced in their order and taken back in the opposite one, each on disk before the next is touched. So the
//! change was made whole exactly when its last file has its new bytes, whatever has become of the others since.

use super::hold::Hold;
use super::intent::{INTENT, Intent, read, this_computer};
use super::write::{taken_back, unchanged, within};
use crate::text::disk::remove_file;
use crate::text::left_behind;
use crate::text::steps::Steps;
use crate::text::unwritten::WhyUnwritten;
use std::fs;
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

/// Finishes or takes back a change that was cut short.
///
/// # Errors
/// If a file cannot be given its old bytes, or the intent is another computer's, is not one podbook wrote or cannot be taken
/// away.
pub fn put_right(hold: &Hold, steps: &dyn Steps) -> Result<PutRight, WhyUnwritten> {
    let folder = hold.folder();
    let intent = folder.join(INTENT);
    if !unsettled(folder) {
        return Ok(PutRight::Nothing);
    }
    // A folder, a pipe or a link: podbook makes a plain file.
    if !fs::symlink_metadata(&intent)?.is_file() {
        return Err(WhyUnwritten::NoIntent);
    }
    let bytes = fs::read(&intent)?;
    let Intent { by, changes } = read(&bytes).ok_or(WhyUnwritten::NoIntent)?;
    if by != this_computer() {
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
    if let Some(path) = taken_back(folder, &changes, steps).into_iter().next() {
        return Err(WhyUnwritten::StillNew(path));
    }
    remove_file(&intent, steps)?;
    Ok(PutRight::TakenBack { left_alone })
}
