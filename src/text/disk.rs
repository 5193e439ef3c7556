//! Writing texts so that a file is never seen half-written and nothing another program wrote is lost.
//!
//! The new text goes to a file of its own beside the old one, is forced to disk, read back, and then takes the old
//! one's name. Callers decide what is written. A change another program made since the file was read is noticed and kept,
//! also one made in the very same instant where the system can exchange names (see `swap`).

use std::fs;
use std::io::{self, Read, Seek, Write};
use std::path::Path;

use super::left_behind;
use super::source::Source;
use super::steps::{NoFailures, Steps};
use super::swap::{put_in_place, take_away};
use super::unwritten::{WhyUnwritten, refusal};

impl Source {
    /// The bytes of another text in this file's place: with a byte-order mark when this one has it.
    pub fn as_marked(&self, text: &str) -> Vec<u8> {
        let mark = if self.marked { "\u{feff}" } else { "" };
        [mark.as_bytes(), text.as_bytes()].concat()
    }
}

/// Writes bytes over whatever lies at a path without links; a pipe or device is written to as it is.
pub(super) fn overwrite(path: &Path, bytes: &[u8]) -> Result<(), WhyUnwritten> {
    match fs::metadata(path).ok() {
        Some(about) if !about.is_file() => fs::write(path, bytes).map_err(refusal),
        _ => put_bytes(path, None, bytes, &NoFailures),
    }
}

/// Puts bytes in the place of a file, which keeps its owner, permissions and the tags a file manager gave it, as far as the disk
/// knows them; or makes the file when it is not there. With
/// `was` the file must still hold those bytes at the moment it is replaced. The path has no links in it.
pub(super) fn put_bytes(
    path: &Path,
    was: Option<&[u8]>,
    bytes: &[u8],
    steps: &dyn Steps,
) -> Result<(), WhyUnwritten> {
    let about = match (fs::metadata(path), was) {
        (Ok(about), _) => Some(about),
        (Err(fault), None) if fault.kind() == io::ErrorKind::NotFound => None,
        (Err(fault), _) => return Err(fault.into()),
    };
    if about
        .as_ref()
        .is_some_and(|about| about.permissions().readonly())
    {
        return Err(WhyUnwritten::Protected);
    }
    let beside = beside(path, bytes, about.is_none(), steps)?;
    if let Some(about) = &about {
        keep_owner(beside.as_file(), about);
        keep_attributes(path, beside.as_file());
        // A disk without permissions refuses these; the file is its owner's alone then, where the disk knows one.
        beside.as_file().set_permissions(about.permissions()).ok();
    }
    if was.is_some_and(|was| fs::read(path).ok().as_deref() != Some(was)) {
        return Err(WhyUnwritten::Changed);
    }
    before(steps, "rename", path)?;
    match was {
        Some(was) => put_in_place(beside, path, (was, bytes))?,
        None => drop(
            beside
                .persist(path)
                .map_err(|fault| WhyUnwritten::from(fault.error))?,
        ),
    }
    settle_folder(path, steps)
}

/// Takes a file away that must hold these bytes.
pub(super) fn take_file(path: &Path, was: &[u8], steps: &dyn Steps) -> Result<(), WhyUnwritten> {
    before(steps, "remove", path)?;
    take_away(path, was)?;
    settle_folder(path, steps)
}

/// Writes a file that must not be there yet, with its folder; the file, locked until it is dropped.
pub(super) fn take_new_name(
    path: &Path,
    bytes: &[u8],
    steps: &dyn Steps,
) -> Result<fs::File, WhyUnwritten> {
    if let Some(folder) = path.parent().filter(|folder| !folder.is_dir()) {
        before(steps, "make the folder", folder)?;
        fs::create_dir_all(folder).map_err(refusal)?;
        open_as_around(folder);
        settle_folder(folder, steps)?;
    }
    let beside = beside(path, bytes, true, steps)?;
    before(steps, "rename", path)?;
    let file = named_anew(beside, path)?;
    settle_folder(path, steps)?;
    Ok(file)
}

/// Gives a file a name that must be free. Where the disk can neither rename without taking another's place nor give a file two
/// names, whether the name is free is looked at in the moment before.
fn named_anew(beside: tempfile::NamedTempFile, path: &Path) -> Result<fs::File, WhyUnwritten> {
    use io::ErrorKind::{InvalidInput, PermissionDenied, Unsupported};
    let refused = match beside.persist_noclobber(path) {
        Ok(file) => return Ok(file),
        Err(refused) => refused,
    };
    let cannot = [InvalidInput, PermissionDenied, Unsupported].contains(&refused.error.kind());
    if !cannot || fs::symlink_metadata(path).is_ok() {
        return Err(refused.error.into());
    }
    let named = refused.file.persist(path);
    named.map_err(|refused| refused.error.into())
}

/// Lets those into a new folder who may write in the one around it: two accounts may share a registry.
fn open_as_around(folder: &Path) {
    let around = folder.parent().and_then(|around| fs::metadata(around).ok());
    if let Some(around) = around {
        fs::set_permissions(folder, around.permissions()).ok();
    }
}

/// Takes a file away; one that is not there is no fault.
pub(super) fn remove_file(path: &Path, steps: &dyn Steps) -> Result<(), WhyUnwritten> {
    before(steps, "remove", path)?;
    match fs::remove_file(path) {
        Err(fault) if fault.kind() != io::ErrorKind::NotFound => Err(refusal(fault)),
        _ => settle_folder(path, steps),
    }
}

fn before(steps: &dyn Steps, step: &'static str, path: &Path) -> Result<(), WhyUnwritten> {
    let name = path.file_name().map(|name| name.to_string_lossy());
    steps
        .before(step, &name.unwrap_or_default())
        .map_err(refusal)
}

/// Forces the list of names in a path's folder to disk; systems other than Unix do it themselves, and some disks cannot.
pub(super) fn settle_folder(path: &Path, steps: &dyn Steps) -> Result<(), WhyUnwritten> {
    use io::ErrorKind::{InvalidInput, Unsupported};
    before(steps, "settle the folder of", path)?;
    if !cfg!(unix) {
        return Ok(());
    }
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty());
    let folder = fs::File::open(folder.unwrap_or(Path::new("."))).map_err(refusal)?;
    match folder.sync_all() {
        Err(fault) if !matches!(fault.kind(), InvalidInput | Unsupported) => Err(refusal(fault)),
        _ => Ok(()),
    }
}

/// A file with these bytes in the folder of a path, on disk and read back; it vanishes unless it gets a name.
/// Only its owner may read it, unless it is a new file and not to take an old one's place.
fn beside(
    path: &Path,
    bytes: &[u8],
    new: bool,
    steps: &dyn Steps,
) -> Result<tempfile::NamedTempFile, WhyUnwritten> {
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    left_behind::clear(folder);
    before(steps, "write beside", path)?;
    let mut file = held(folder, new).map_err(refusal)?;
    file.write_all(bytes).map_err(refusal)?;
    before(steps, "force to disk beside", path)?;
    file.as_file().sync_all().map_err(refusal)?;
    before(steps, "read back beside", path)?;
    // Through the handle that holds it: some systems let a locked file be read through no other.
    let mut found = Vec::new();
    file.rewind().map_err(refusal)?;
    file.read_to_end(&mut found).map_err(refusal)?;
    if found != bytes {
        return Err(WhyUnwritten::NotReadBack);
    }
    Ok(file)
}

/// An empty file in a folder, locked until it has its name or is gone.
fn held(folder: &Path, new: bool) -> io::Result<tempfile::NamedTempFile> {
    let mut builder = left_behind::part_name();
    if new {
        as_any_new_file(&mut builder);
    }
    loop {
        let file = builder.tempfile_in(folder)?;
        if left_behind::hold(file.as_file(), file.path()) {
            return Ok(file);
        }
    }
}

/// Gives a new file the owner of the old one, as far as the system lets us.
#[cfg(unix)]
fn keep_owner(file: &fs::File, about: &fs::Metadata) {
    use std::os::unix::fs::{MetadataExt, fchown};
    fchown(file, Some(about.uid()), Some(about.gid())).ok();
}

#[cfg(not(unix))]
fn keep_owner(_: &fs::File, _: &fs::Metadata) {}

/// Gives a new file the extended attributes that users and their programs set on the old one, such as tags and colours, as far
/// as the system and the disk can.
#[cfg(any(target_os = "linux", target_vendor = "apple"))]
fn keep_attributes(path: &Path, file: &fs::File) {
    use rustix::fs::{XattrFlags, fsetxattr, getxattr, listxattr};
    let (mut names, mut value) = (vec![0; LONGEST_ATTRIBUTE], vec![0; LONGEST_ATTRIBUTE]);
    let Ok(length) = listxattr(path, &mut names[..]) else {
        return;
    };
    // On Linux the others belong to the system, which sets them itself.
    let is_users = |name: &&[u8]| !cfg!(target_os = "linux") || name.starts_with(b"user.");
    let names = names[..length].split(|byte| *byte == 0);
    for name in names.filter(|name| !name.is_empty()).filter(is_users) {
        if let Ok(length) = getxattr(path, name, &mut value[..]) {
            fsetxattr(file, name, &value[..length], XattrFlags::empty()).ok();
        }
    }
}

/// Bytes of the longest extended attribute, and of the list of their names, that Linux takes.
#[cfg(any(target_os = "linux", target_vendor = "apple"))]
const LONGEST_ATTRIBUTE: usize = 1 << 16;

#[cfg(not(any(target_os = "linux", target_vendor = "apple")))]
fn keep_attributes(_: &Path, _: &fs::File) {}

/// Asks for what any new file gets, less what the user's mask takes away; a temporary file is otherwise its owner's.
#[cfg(unix)]
fn as_any_new_file(builder: &mut tempfile::Builder<'_, '_>) {
    use std::os::unix::fs::PermissionsExt;
    builder.permissions(fs::Permissions::from_mode(0o666));
}

#[cfg(not(unix))]
fn as_any_new_file(_: &mut tempfile::Builder<'_, '_>) {}
