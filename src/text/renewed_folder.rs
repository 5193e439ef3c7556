//! A folder of files made anew each time: in the place of what an earlier run made, and never over anything else.
//!
//! One of the files, the mark, lists the others, a path a line below its first empty line. Only a folder in which every
//! file is the mark or listed in it gives way. The new files are written whole before the old ones are moved aside.

use super::left_behind::{WHOLE, clear_whole, folder_in, is_left_behind};
use super::new_folder::{NoFolder, move_into, new_folder, write_all};
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::Path;

/// The folder inside the one in the making that takes the old files.
const OLD: &str = "old";

/// Text of a mark: what it is, then what lies beside it.
pub fn mark<'p>(about: &str, paths: impl Iterator<Item = &'p str>) -> String {
    let listed: Vec<&str> = paths.collect();
    format!("{about}\n\n{}\n", listed.join("\n"))
}

/// Writes files, given by path relative to the folder with `/`, into a folder that is not there yet, is empty, or holds
/// nothing but what the mark in it lists. Hidden folders that stopped runs left there or beside it are removed, since others
/// may get the folder; those that will not go are given back.
///
/// # Errors
/// If the folder holds anything else, or if the system refuses; the old files are there then.
pub fn renewed_folder(
    folder: &Path,
    mark: &str,
    texts: &[(&str, &[u8])],
) -> Result<Vec<String>, NoFolder> {
    renewed(folder, mark, texts)?;
    let beside = folder.canonicalize().ok();
    if let Some(beside) = beside.as_deref().and_then(Path::parent) {
        // Beside it may be others of ours, such as a registry in the making.
        clear_whole(beside, |path| path.join(WHOLE).join(mark).is_file());
    }
    Ok(clear_whole(folder, |_| true))
}

fn renewed(folder: &Path, mark: &str, texts: &[(&str, &[u8])]) -> Result<(), NoFolder> {
    // The mark comes first and goes last, so that a folder which a killed run left half made is known again.
    let (of_mark, others): (Vec<_>, Vec<_>) = texts.iter().partition(|(path, _)| *path == mark);
    let texts = &[of_mark, others].concat()[..];
    match new_folder(folder, texts) {
        Err(NoFolder::NotEmpty(entry)) => {
            // What cannot be read as a mark lists nothing.
            let Ok(listed) = fs::read_to_string(folder.join(mark)) else {
                return Err(NoFolder::NotEmpty(entry));
            };
            let (_, listed) = listed.split_once("\n\n").unwrap_or_default();
            let ours: BTreeSet<&str> = listed.lines().chain([mark]).collect();
            match foreign(folder, &ours)? {
                Some(entry) => Err(NoFolder::NotEmpty(entry)),
                None => exchanged(folder, mark, texts),
            }
        }
        done => done,
    }
}

/// The first file, by path, that is not among ours.
fn foreign(folder: &Path, ours: &BTreeSet<&str>) -> Result<Option<String>, NoFolder> {
    let mut found = BTreeSet::new();
    let mut open = vec![String::new()];
    while let Some(below) = open.pop() {
        for entry in fs::read_dir(folder.join(&below))? {
            let entry = entry?;
            let name = entry.file_name().to_string_lossy().into_owned();
            let path = match below.is_empty() {
                true => name,
                false => format!("{below}/{name}"),
            };
            if entry.file_type()?.is_dir() && !is_left_behind(&entry.path()) {
                open.push(path);
            } else if !ours.contains(path.as_str()) && !is_left_behind(&entry.path()) {
                found.insert(path);
            }
        }
    }
    Ok(found.into_iter().next())
}

fn exchanged(folder: &Path, mark: &str, texts: &[(&str, &[u8])]) -> Result<(), NoFolder> {
    let mut tops = tops(folder)?;
    tops.sort_by_key(|top| top == mark);
    let (hidden, _held) = folder_in(folder)?;
    let (whole, old) = (hidden.path().join(WHOLE), hidden.path().join(OLD));
    write_all(&whole, texts)?;
    fs::create_dir(&old)?;
    let mut aside = Vec::new();
    let moved = tops
        .iter()
        .try_for_each(|top| fs::rename(folder.join(top), old.join(top)).map(|()| aside.push(top)));
    let done = moved
        .map_err(NoFolder::from)
        .and_then(|()| move_into(&whole, folder, texts));
    if done.is_err() {
        for top in aside {
            // One that will not go back stays in the hidden folder, and the fault that led here is told.
            let _ = fs::rename(old.join(top), folder.join(top));
        }
    }
    done
}

/// Names of what lies at the top of a folder.
fn tops(folder: &Path) -> io::Result<Vec<std::ffi::OsString>> {
    let entries = fs::read_dir(folder)?.collect::<io::Result<Vec<_>>>()?;
    let entries = entries.into_iter();
    let ours = entries.filter(|entry| !is_left_behind(&entry.path()));
    Ok(ours.map(|entry| entry.file_name()).collect())
}
