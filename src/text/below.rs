//! The files below a folder.

use std::fs;
use std::path::Path;

/// Folders inside each other that are looked into: a phone has two or three.
const DEEPEST: usize = 8;

/// The files of a folder and of the folders in it, by name: first its own, then those of each folder, with `/` between
/// folder and file. Leaves out what is hidden, and folders that a link leads to, which may lead in a circle. A name that is
/// not UTF-8 is listed with `�` for what is not, a folder so named as if it were a file.
pub fn files_below(folder: &Path) -> Vec<String> {
    let mut files = Vec::new();
    let mut open = vec![(String::new(), 0)];
    while let Some((inside, depth)) = open.pop() {
        let (folders, own) = contents(&folder.join(&inside), &inside);
        files.extend(own);
        if depth < DEEPEST {
            // The last is taken first.
            open.extend(folders.into_iter().rev().map(|of| (of, depth + 1)));
        }
    }
    files
}

/// The folders and files of a folder, each in order.
fn contents(folder: &Path, inside: &str) -> (Vec<String>, Vec<String>) {
    let (mut folders, mut files) = (Vec::new(), Vec::new());
    for entry in fs::read_dir(folder).into_iter().flatten().flatten() {
        let name = entry.file_name();
        let (is_read, name) = (name.to_str().is_some(), name.to_string_lossy());
        if name.starts_with('.') {
            continue;
        }
        // Of a link itself, not of what it leads to.
        match entry.file_type() {
            Ok(kind) if kind.is_dir() && is_read => folders.push(format!("{inside}{name}/")),
            _ => files.push(format!("{inside}{name}")),
        }
    }
    folders.sort_unstable();
    files.sort_unstable();
    (folders, files)
}
