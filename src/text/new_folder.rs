//! A folder of new texts, written whole or not at all.
//!
//! The texts are written into a hidden folder first, beside the new folder, or inside it when it is there and empty
//! (it may be the one the grower stands in). Then they take their names. What the texts say is left to others.

use super::kept::{Kept, kept};
use super::left_behind::{WHOLE, clear, clear_folders, folder_in, is_left_behind};
use super::refusal::system_words;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// Why no folder was written. Nothing was left behind.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum NoFolder {
    /// It holds something already; its first entry by name.
    NotEmpty(String),
    /// A file bears its name.
    AFile,
    /// Its name is a link to nothing.
    LinkBroken,
    /// A registry keeps its name for something else.
    Kept(Kept),
    /// The system refused, in its own words.
    System(String),
}

impl From<io::Error> for NoFolder {
    fn from(fault: io::Error) -> Self {
        NoFolder::System(system_words(&fault))
    }
}

/// Writes texts, given by path relative to the folder with `/`, into a folder that is not there yet or is empty. The
/// last text takes its name last.
///
/// # Errors
/// If the folder holds anything, hidden files included, or if the system refuses.
pub fn new_folder(folder: &Path, texts: &[(&str, &[u8])]) -> Result<(), NoFolder> {
    let there = is_there(folder)?;
    refuse_kept(folder, there)?;
    let around = match folder.parent() {
        _ if there => folder,
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    let made = missing(around);
    let written = fs::create_dir_all(around)
        .map_err(NoFolder::from)
        .and_then(|()| write_in(around, (folder, there), texts));
    if written.is_err() {
        // Deepest first; one that holds something by now stays.
        made.iter().for_each(|folder| drop(fs::remove_dir(folder)));
    }
    written
}

/// Refuses a folder that a registry, or the one it is to stand in, keeps for itself.
fn refuse_kept(folder: &Path, there: bool) -> Result<(), NoFolder> {
    let place = match there {
        true => folder.canonicalize().ok(),
        false => wanted(folder),
    };
    // Where its place is not known, the system says why when the folder is made.
    match place.and_then(|place| kept(&place, None)) {
        Some(why) => Err(NoFolder::Kept(why)),
        None => Ok(()),
    }
}

/// Where a folder will be that is not there yet, nor perhaps the folders above it.
fn wanted(folder: &Path) -> Option<PathBuf> {
    let there = folder.ancestors().find(|above| above.exists());
    let there = there.unwrap_or(Path::new(""));
    let mut place = match there.as_os_str().is_empty() {
        true => Path::new(".").canonicalize(),
        false => there.canonicalize(),
    }
    .ok()?;
    for part in folder.strip_prefix(there).ok()?.components() {
        match part {
            Component::Normal(name) => place.push(name),
            Component::ParentDir => drop(place.pop()),
            _ => {}
        }
    }
    Some(place)
}

/// The folders at and above a path that are not there, the deepest first.
fn missing(path: &Path) -> Vec<&Path> {
    let above = path.ancestors().filter(|path| !path.as_os_str().is_empty());
    above
        .take_while(|path| fs::symlink_metadata(path).is_err())
        .collect()
}

/// Writes the texts into a hidden folder and gives them their names.
fn write_in(
    around: &Path,
    (folder, there): (&Path, bool),
    texts: &[(&str, &[u8])],
) -> Result<(), NoFolder> {
    clear(around);
    clear_folders(around, texts);
    let (hidden, _held) = folder_in(around)?;
    let whole = hidden.path().join(WHOLE);
    write_all(&whole, texts)?;
    if there {
        move_into(&whole, folder, texts)
    } else {
        Ok(fs::rename(&whole, folder)?)
    }
}

/// Writes texts into a folder that nobody looks at yet.
pub(super) fn write_all(whole: &Path, texts: &[(&str, &[u8])]) -> io::Result<()> {
    for (path, text) in texts {
        let path = whole.join(path);
        fs::create_dir_all(path.parent().unwrap_or(whole))?;
        fs::write(&path, text)?;
    }
    Ok(())
}

/// Whether there is a folder, which must then be empty.
fn is_there(folder: &Path) -> Result<bool, NoFolder> {
    match fs::metadata(folder) {
        Ok(about) if !about.is_dir() => Err(NoFolder::AFile),
        Ok(_) => match first_entry(folder)? {
            Some(entry) => Err(NoFolder::NotEmpty(entry)),
            None => Ok(true),
        },
        Err(fault) if fault.kind() == io::ErrorKind::NotFound => {
            match fs::symlink_metadata(folder) {
                Ok(_) => Err(NoFolder::LinkBroken),
                Err(_) => Ok(false),
            }
        }
        Err(fault) => Err(fault.into()),
    }
}

fn first_entry(folder: &Path) -> Result<Option<String>, NoFolder> {
    let mut names = Vec::new();
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        if !is_left_behind(&entry.path()) {
            names.push(entry.file_name().to_string_lossy().into_owned());
        }
    }
    names.sort_unstable();
    Ok(names.into_iter().next())
}

/// Moves what lies at the top of one folder into another; what was moved is taken back when one fails.
pub(super) fn move_into(
    whole: &Path,
    folder: &Path,
    texts: &[(&str, &[u8])],
) -> Result<(), NoFolder> {
    let mut tops: Vec<&str> = Vec::new();
    for (path, _) in texts {
        let top = path.split('/').next().unwrap_or(path);
        if !tops.contains(&top) {
            tops.push(top);
        }
    }
    let mut moved: Vec<PathBuf> = Vec::new();
    for top in tops {
        let to = folder.join(top);
        if let Err(fault) = fs::rename(whole.join(top), &to) {
            take_back(&moved);
            return Err(fault.into());
        }
        moved.push(to);
    }
    Ok(())
}

fn take_back(moved: &[PathBuf]) {
    for path in moved {
        // Nothing more can be done about one that will not go; the fault that led here is the one to tell.
        let _ = fs::remove_file(path).or_else(|_| fs::remove_dir_all(path));
    }
}
