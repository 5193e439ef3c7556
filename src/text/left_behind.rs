//! Temporary files that a stopped run, for example after a power cut, left beside what it was writing.
//!
//! A new text is first written to a file with a name no other program uses (`.podbook-`, sixteen letters and digits,
//! `.part`) and that stays locked as long as its writer runs; however that ends, the system lets go of the lock. A file
//! of such a name that can be locked has no writer any more. A new registry is made in a folder named alike,
//! with a locked file inside. No other file counts as left behind.

use std::fs::{self, File};
use std::io;
use std::path::{Path, PathBuf};

const FRONT: &str = ".podbook-";
const LETTERS: usize = 16;
/// How the name of a file in the making ends.
const PART: &str = ".part";
/// How the name of a folder in the making ends.
const NEW: &str = ".new";
/// The locked file inside a folder in the making.
const HOLD: &str = "hold";

/// Names for what is in the making.
fn name(ending: &'static str) -> tempfile::Builder<'static, 'static> {
    let mut builder = tempfile::Builder::new();
    builder.prefix(FRONT).rand_bytes(LETTERS).suffix(ending);
    builder
}

/// Names for a file in the making.
pub(super) fn part_name() -> tempfile::Builder<'static, 'static> {
    name(PART)
}

/// Whether a name is one of ours.
fn is_named(name: &str, ending: &str) -> bool {
    let letters = name
        .strip_prefix(FRONT)
        .and_then(|rest| rest.strip_suffix(ending));
    letters.is_some_and(|letters| {
        letters.len() == LETTERS && letters.bytes().all(|byte| byte.is_ascii_alphanumeric())
    })
}

/// Locks a file just made; false when it was cleared away in the moment before.
pub(super) fn hold(file: &File, path: &Path) -> bool {
    // Where the system knows no locks, `unused` finds nothing unused either.
    let _ = file.try_lock();
    fs::symlink_metadata(path).is_ok()
}

/// A folder in the making, and the lock that says so.
pub(super) fn folder_in(around: &Path) -> io::Result<(tempfile::TempDir, File)> {
    let folder = name(NEW).tempdir_in(around)?;
    let hold = File::create_new(folder.path().join(HOLD))?;
    let _ = hold.try_lock();
    Ok((folder, hold))
}

/// A plain file that no running program holds, locked.
fn unused(path: &Path) -> Option<File> {
    let is_file = fs::symlink_metadata(path).is_ok_and(|about| about.is_file());
    let file = File::open(path).ok().filter(|_| is_file)?;
    file.try_lock().ok()?;
    Some(file)
}

/// Whether a path in a folder is a file or folder of ours that no running program holds.
pub(super) fn is_left_behind(path: &Path) -> bool {
    let Some(name) = path.file_name().and_then(|name| name.to_str()) else {
        return false;
    };
    (is_named(name, PART) && unused(path).is_some())
        || (is_named(name, NEW) && unused(&path.join(HOLD)).is_some())
}

/// Folders of ours in a folder that a stopped run left behind.
pub fn folders_left_behind(folder: &Path) -> Vec<PathBuf> {
    let mut left = entries(folder, NEW);
    left.retain(|path| is_left_behind(path));
    left
}

fn entries(folder: &Path, ending: &str) -> Vec<PathBuf> {
    let entries = fs::read_dir(folder).into_iter().flatten().flatten();
    let ours = entries.filter(|entry| is_named(&entry.file_name().to_string_lossy(), ending));
    ours.map(|entry| entry.path()).collect()
}

/// Removes the files of ours that were left behind in a folder.
pub(super) fn clear(folder: &Path) {
    for path in entries(folder, PART) {
        if let Some(_held) = unused(&path) {
            // One that will not go is found by `check`.
            let _ = fs::remove_file(&path);
        }
    }
}

/// Removes folders of ours that were left behind in a folder, but only files that hold what we would have written, or
/// the beginning of it, and folders that are empty then.
pub(super) fn clear_folders(around: &Path, texts: &[(&str, &[u8])]) {
    for path in entries(around, NEW) {
        let Some(held) = unused(&path.join(HOLD)) else {
            continue;
        };
        let whole = path.join(WHOLE);
        for (inside, text) in texts {
            let file = whole.join(inside);
            if fs::read(&file).is_ok_and(|bytes| text.starts_with(&bytes)) {
                let _ = fs::remove_file(&file);
            }
            if let Some(below) = file.parent().filter(|below| *below != whole) {
                let _ = fs::remove_dir(below);
            }
        }
        let _ = fs::remove_dir(&whole);
        let only_the_lock = fs::read_dir(&path).is_ok_and(|entries| entries.count() == 1);
        if only_the_lock {
            let _ = fs::remove_file(path.join(HOLD));
            drop(held);
            let _ = fs::remove_dir(&path);
        }
    }
}

/// Removes folders of ours that were left behind in a folder and that are meant, with all that is in them; the names of those
/// that will not go.
pub(super) fn clear_whole(around: &Path, is_meant: impl Fn(&Path) -> bool) -> Vec<String> {
    let meant = entries(around, NEW).into_iter();
    let meant = meant.filter(|path| is_left_behind(path) && is_meant(path));
    let stays = meant.filter(|path| removed(path).is_err());
    stays
        .map(|path| path.to_string_lossy().into_owned())
        .collect()
}

/// Removes a folder left behind, its lock last: one that is removed in part only is known again by it.
fn removed(path: &Path) -> io::Result<()> {
    for entry in fs::read_dir(path)? {
        let entry = entry?;
        if entry.file_type()?.is_dir() {
            fs::remove_dir_all(entry.path())?;
        }
    }
    fs::remove_dir_all(path)
}

/// The folder inside a folder in the making that takes the new one's name: one in the making is open to its owner only.
pub(super) const WHOLE: &str = "whole";
