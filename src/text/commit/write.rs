//! Writing a change of several files, and taking it back when one of them is refused.

use super::change::FileChange;
use super::hold::{Hold, LOCK};
use super::intent::{INTENT, written};
use crate::text::disk::{put_bytes, remove_file, settle_folder, take_file, take_new_name};
use crate::text::folder::{CROSSES, is_ron};
use crate::text::locks::bears;
use crate::text::steps::Steps;
use crate::text::unwritten::{Unwritten, WhyUnwritten};
use std::fs::{self, File};
use std::io;
use std::path::{Component, Path};

/// Why a change is not on disk as it was asked for.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Uncommitted {
    /// Every file is as it was.
    Nothing(Unwritten),
    /// A file was refused, and others that had been written could not be given their old bytes. The next command that
    /// reads or writes the registry does it.
    HalfWay {
        /// The file that was refused.
        refused: Unwritten,
        /// The files that still hold new bytes.
        left: Vec<String>,
    },
    /// Every file holds its new bytes, but the intent could not be taken away, or it is not sure that the last file has
    /// reached the disk.
    Unsettled(Unwritten),
}

/// Makes all changes or none. When this returns `Ok`, all of them have reached the disk.
///
/// # Errors
/// As [`Uncommitted`]: a file that is not as it was read, a protected file, or the system's refusal.
pub fn commit(hold: &Hold, changes: &[FileChange], steps: &dyn Steps) -> Result<(), Uncommitted> {
    let folder = hold.folder();
    if !hold.stands() {
        return Err(Uncommitted::Nothing(refused(LOCK, WhyUnwritten::LockLost)));
    }
    for change in changes {
        within(&change.path).map_err(|why| Uncommitted::Nothing(refused(&change.path, why)))?;
        unchanged(folder, &change.path, change.was.as_deref())
            .map_err(|why| Uncommitted::Nothing(refused(&change.path, why)))?;
    }
    let intent = folder.join(INTENT);
    let locked = written_down(&intent, changes, steps)
        .map_err(|why| Uncommitted::Nothing(refused(INTENT, why)))?;
    let is_ours = || bears(&locked, &intent);
    for (at, change) in changes.iter().enumerate() {
        let made = replaced(
            folder,
            &change.path,
            (change.was.as_deref(), change.now.as_deref()),
            steps,
        );
        if let Err(why) = made {
            let refused = refused(&change.path, why);
            return Err(given_up(
                (folder, steps),
                (changes, at + 1),
                refused,
                is_ours(),
            ));
        }
    }
    if let Some(change) = changes.iter().find(|change| is_old(folder, change)) {
        let refused = refused(&change.path, WhyUnwritten::GivenBack);
        return Err(given_up(
            (folder, steps),
            (changes, changes.len()),
            refused,
            is_ours(),
        ));
    }
    match is_ours() {
        true => {
            remove_file(&intent, steps).map_err(|why| Uncommitted::Unsettled(refused(INTENT, why)))
        }
        // It went away meanwhile, or is another's: all files hold their new bytes, and so the change is made.
        false => Ok(()),
    }
}

/// Writes an intent, which must not be there yet; the file, locked until it is dropped.
fn written_down(
    intent: &Path,
    changes: &[FileChange],
    steps: &dyn Steps,
) -> Result<File, WhyUnwritten> {
    let bytes = written(changes);
    take_new_name(intent, &bytes, steps).map_err(|why| match why {
        WhyUnwritten::Exists => WhyUnwritten::BeingWritten,
        why => {
            // Ours, of which nothing was done, is taken for a change that was not begun.
            if fs::read(intent).is_ok_and(|found| found == bytes) {
                remove_file(intent, steps).ok();
            }
            why
        }
    })
}

/// Whether another program gave a file of a change its old bytes. One with other bytes has been edited since, which is no fault.
fn is_old(folder: &Path, change: &FileChange) -> bool {
    change.was != change.now && unchanged(folder, &change.path, change.was.as_deref()).is_ok()
}

/// Takes back what was written of a change, its first `begun` files, as far as that goes.
fn given_up(
    (folder, steps): (&Path, &dyn Steps),
    (changes, begun): (&[FileChange], usize),
    refused: Unwritten,
    is_ours: bool,
) -> Uncommitted {
    let (left, _) = taken_back(folder, &changes[..begun], steps);
    if left.is_empty() {
        if is_ours {
            // When it stays, it is found with every file as it was, and nothing is done.
            remove_file(&folder.join(INTENT), steps).ok();
        }
        return Uncommitted::Nothing(refused);
    }
    let is_last = |change: &FileChange| left.contains(&change.path);
    match refused.why != WhyUnwritten::GivenBack && changes.last().is_some_and(is_last) {
        true => Uncommitted::Unsettled(refused),
        false => Uncommitted::HalfWay { refused, left },
    }
}

/// Gives files their old bytes, the last one first, as far as that goes; the paths of those that still hold new ones. One
/// that cannot be given them ends it, so that the last file stays new only where all do; the second value is why.
pub(super) fn taken_back(
    folder: &Path,
    changes: &[FileChange],
    steps: &dyn Steps,
) -> (Vec<String>, Option<WhyUnwritten>) {
    let mut refused = None;
    let is_new =
        |change: &&FileChange| unchanged(folder, &change.path, change.now.as_deref()).is_ok();
    for change in changes.iter().rev().filter(is_new) {
        let bytes = (change.now.as_deref(), change.was.as_deref());
        if let Err(why) = replaced(folder, &change.path, bytes, steps) {
            refused = Some(why);
            break;
        }
    }
    let left = changes
        .iter()
        .filter(|change| change.was != change.now)
        .filter(is_new);
    (left.map(|change| change.path.clone()).collect(), refused)
}

/// Puts new bytes, or no file, in the place of old bytes, or no file.
fn replaced(
    folder: &Path,
    path: &str,
    (was, now): (Option<&[u8]>, Option<&[u8]>),
    steps: &dyn Steps,
) -> Result<(), WhyUnwritten> {
    let place = folder.join(path);
    match (was, now) {
        (Some(_), Some(now)) => put_bytes(&place.canonicalize()?, was, now, steps),
        (None, Some(now)) => take_new_name(&place, now, steps).map(drop),
        (Some(was), None) => take_file(&place, was, steps),
        (None, None) => settle_folder(&place, steps),
    }
}

/// Refuses a path that is not that of a page or of an entry of the journal: an intent or a journal may be of anybody's making,
/// and a folder beside the pages may be a link.
pub(super) fn within(path: &str) -> Result<(), WhyUnwritten> {
    let (is_known, name) = match path.split_once('/') {
        Some((folder, name)) => ([CROSSES, "journal"].contains(&folder), name),
        None => (true, path),
    };
    let is_one_name = matches!(
        Path::new(name).components().collect::<Vec<_>>()[..],
        [Component::Normal(of)] if of == name
    );
    match is_known && is_one_name && is_ron(name) {
        true => Ok(()),
        false => Err(WhyUnwritten::Outside),
    }
}

/// Makes sure that a file holds these bytes, or is not there.
pub(super) fn unchanged(
    folder: &Path,
    path: &str,
    bytes: Option<&[u8]>,
) -> Result<(), WhyUnwritten> {
    match (fs::read(folder.join(path)), bytes) {
        (Ok(found), Some(bytes)) if found == bytes => Ok(()),
        (Ok(_), Some(_)) => Err(WhyUnwritten::Changed),
        (Ok(_), None) => Err(WhyUnwritten::Exists),
        (Err(fault), None) if fault.kind() == io::ErrorKind::NotFound => Ok(()),
        (Err(fault), _) => Err(fault.into()),
    }
}

fn refused(path: &str, why: WhyUnwritten) -> Unwritten {
    Unwritten {
        path: path.to_owned(),
        why,
    }
}
