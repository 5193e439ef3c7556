//! A small file that podbook keeps for itself in a registry's folder, hidden and, where the disk knows permissions, readable to
//! its owner only.

use super::disk::put_bytes;
use super::folder::read_plain;
use super::left_behind::part_name;
use super::refusal::system_words;
use super::steps::NoFailures;
use super::unread::WhyUnread;
use super::unwritten::{Unwritten, WhyUnwritten};
use std::path::Path;

/// What such a file holds; nothing where there is none.
///
/// # Errors
/// Why it could not be read.
pub fn read_own(folder: &Path, name: &str) -> Result<String, WhyUnread> {
    match read_plain(&folder.join(name)) {
        Err(WhyUnread::Gone) => Ok(String::new()),
        read => read,
    }
}

/// Makes sure that a folder takes new files; nothing is left in it.
///
/// # Errors
/// If the system refuses, in its own words.
pub fn takes_files(folder: &Path) -> Result<(), String> {
    let made = part_name().tempfile_in(folder);
    made.map(drop).map_err(|fault| system_words(&fault))
}

/// Writes it, whole or not at all.
///
/// # Errors
/// If it is a link, its name is not hidden, or the system refuses.
pub fn write_own(folder: &Path, name: &str, text: &str) -> Result<(), Unwritten> {
    let refused = |why| Unwritten {
        path: name.to_owned(),
        why,
    };
    let place = folder.join(name);
    let is_hidden = name.starts_with('.') && !name.contains(['/', '\\']);
    if !is_hidden || place.is_symlink() {
        return Err(refused(WhyUnwritten::Outside));
    }
    put_bytes(&place, None, text.as_bytes(), &NoFailures).map_err(refused)?;
    // A disk without permissions refuses these, and the file stands all the same.
    for_owner_only(&place).ok();
    Ok(())
}

#[cfg(unix)]
fn for_owner_only(place: &Path) -> std::io::Result<()> {
    use std::fs::{Permissions, set_permissions};
    use std::os::unix::fs::PermissionsExt;
    set_permissions(place, Permissions::from_mode(0o600))
}

#[cfg(not(unix))]
fn for_owner_only(_: &Path) -> std::io::Result<()> {
    Ok(())
}
