//! Files that are put beside the pages of a registry and never changed again, such as copies of photos.

use super::disk::take_new_name;
use super::steps::NoFailures;
use super::unwritten::{Unwritten, WhyUnwritten};
use std::fs;
use std::path::{Component, Path};

/// Writes a file of a folder, whole or not at all, unless one of that name is there already: that one stays as it is.
/// Whether it was written.
///
/// # Errors
/// If the path leads out of the folder, through a link too, or the system refuses.
pub fn keep_beside(folder: &Path, file: &str, bytes: &[u8]) -> Result<bool, Unwritten> {
    let refused = |why| Unwritten {
        path: file.to_owned(),
        why,
    };
    let inside = Path::new(file)
        .components()
        .all(|part| matches!(part, Component::Normal(_)));
    let place = folder.join(file);
    if !inside || !stays_inside(folder, &place).map_err(|fault| refused(fault.into()))? {
        return Err(refused(WhyUnwritten::Outside));
    }
    if fs::symlink_metadata(&place).is_ok() {
        return Ok(false);
    }
    take_new_name(&place, bytes, &NoFailures)
        .map(drop)
        .map_err(refused)?;
    Ok(true)
}

/// Whether the folder a file is to stand in, as far as it is there, belongs to another one.
fn stays_inside(folder: &Path, place: &Path) -> std::io::Result<bool> {
    let there = place
        .ancestors()
        .skip(1)
        .find(|at| fs::symlink_metadata(at).is_ok());
    let real = there.unwrap_or(folder).canonicalize()?;
    Ok(real.starts_with(folder.canonicalize()?))
}
