//! A file put in the place of another, or another taken away, without losing what some program saves in the same instant.
//!
//! Comparing a page with what was read and then replacing it leaves an instant in which an editor may save. So the two
//! files change names in one step of the system, and what came out of the page's place is compared: if it is not what was
//! read, it gets its name back. Where the system or the disk cannot exchange names, the page is replaced as it is.

use super::left_behind;
use super::unwritten::WhyUnwritten;
use std::fs;
use std::io;
use std::path::Path;
use tempfile::NamedTempFile;

/// Puts a file with these bytes in the place of one that must hold the others.
///
/// # Errors
/// If the place held something else, which is there again.
pub(super) fn put_in_place(
    file: NamedTempFile,
    path: &Path,
    (was, now): (&[u8], &[u8]),
) -> Result<(), WhyUnwritten> {
    match exchange(file.path(), path) {
        Ok(()) => {}
        Err(fault) if fault.kind() == io::ErrorKind::NotFound => return Err(fault.into()),
        Err(_) => return persisted(file, path),
    }
    if holds(file.path(), was) {
        return Ok(());
    }
    exchange(file.path(), path)?;
    if !holds(file.path(), now) {
        // Saved again in the meantime, over ours: the later text belongs there.
        exchange(file.path(), path)?;
    }
    Err(WhyUnwritten::Changed)
}

/// Takes a file away that must hold these bytes.
///
/// # Errors
/// If it held something else, which is there again.
pub(super) fn take_away(path: &Path, was: &[u8]) -> Result<(), WhyUnwritten> {
    let folder = path.parent().unwrap_or(Path::new("."));
    // Closed first: some systems and disks give no file the name of an open one.
    let aside = left_behind::part_name()
        .tempfile_in(folder)?
        .into_temp_path();
    fs::rename(path, &aside)?;
    if holds(&aside, was) {
        return Ok(());
    }
    let back = aside.persist_noclobber(path);
    back.map_err(|fault| WhyUnwritten::from(fault.error))?;
    Err(WhyUnwritten::Changed)
}

fn holds(path: &Path, bytes: &[u8]) -> bool {
    fs::read(path).is_ok_and(|found| found == bytes)
}

fn persisted(file: NamedTempFile, path: &Path) -> Result<(), WhyUnwritten> {
    let kept = file.persist(path);
    kept.map(drop)
        .map_err(|fault| WhyUnwritten::from(fault.error))
}

/// Gives each of two files the other's name.
#[cfg(any(target_os = "linux", target_vendor = "apple"))]
fn exchange(one: &Path, other: &Path) -> io::Result<()> {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).map_err(io::Error::from)
}

/// Gives each of two files the other's name.
#[cfg(not(any(target_os = "linux", target_vendor = "apple")))]
fn exchange(_: &Path, _: &Path) -> io::Result<()> {
    Err(io::ErrorKind::Unsupported.into())
}
