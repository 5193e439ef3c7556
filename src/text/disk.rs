//! Writing texts so that a file is never seen half-written and nothing another program wrote is lost.
//!
//! The new text goes to a file of its own beside the old one, is forced to disk, read back, and then takes the old
//! one's name. Callers decide what is written. A change another program made since the file was read is noticed and kept;
//! one made in the very same instant is not noticed.

use std::fmt;
use std::fs;
use std::io::{self, Write};
use std::path::{Component, Path};

use super::left_behind;
use super::refusal::system_words;
use super::source::{Source, Sources};
use super::span::FileId;

/// A file that was not written, and why. What lay on disk lies there still.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Unwritten {
    /// The path as it was given: for a registry's file relative to its folder, with `/`.
    pub path: String,
    /// Why.
    pub why: WhyUnwritten,
}

/// Why a file was not written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum WhyUnwritten {
    /// The file on disk is not as it was when it was read.
    Changed,
    /// The file is protected against writing.
    Protected,
    /// A file with this name is there already.
    Exists,
    /// The path leads out of the registry, or names no file.
    Outside,
    /// What was read back is not what was written.
    NotReadBack,
    /// The system refused, in its own words.
    System(String),
}

impl fmt::Display for WhyUnwritten {
    /// What stands after "could not be written: ".
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str(match self {
            WhyUnwritten::Changed => "it changed on disk after it was read; run the command again",
            WhyUnwritten::Protected => {
                "it is protected against writing; allow writing and run the command again"
            }
            WhyUnwritten::Exists => "a file of that name is there already",
            WhyUnwritten::Outside => "its path leads out of the registry",
            WhyUnwritten::NotReadBack => "what was read back is not what was written",
            WhyUnwritten::System(words) => words,
        })
    }
}

impl From<io::Error> for WhyUnwritten {
    fn from(fault: io::Error) -> Self {
        match fault.kind() {
            io::ErrorKind::AlreadyExists => WhyUnwritten::Exists,
            io::ErrorKind::NotFound => WhyUnwritten::Changed,
            _ => refusal(fault),
        }
    }
}

impl Source {
    /// The bytes as on disk, with the byte-order mark.
    fn bytes(&self) -> Vec<u8> {
        let mark = if self.marked { "\u{feff}" } else { "" };
        [mark.as_bytes(), self.text.as_bytes()].concat()
    }
}

impl Sources {
    /// Writes a new text of a file to disk and, when that is done, takes it into these sources. The byte-order mark,
    /// permissions and, through a link, the place of the file are kept; offsets into the old text lose their meaning.
    ///
    /// # Errors
    /// If the file has changed since it was read, is protected, or the system refuses.
    ///
    /// # Panics
    /// If the number is not from these sources.
    pub fn write(&mut self, file: FileId, text: String) -> Result<(), Unwritten> {
        let old = self.get(file);
        let path = old.path.clone();
        let mut new = Source::new(path.as_str(), text);
        new.marked |= old.marked;
        let written = replace(&self.folder.join(&path), &old.bytes(), &new.bytes());
        written.map_err(|why| Unwritten { path, why })?;
        self.files[file.index()] = new;
        Ok(())
    }

    /// Writes a file that is not there yet, with its folder, and numbers it after all others.
    ///
    /// # Errors
    /// If it is there, if its path leads out of the registry, or if the system refuses.
    pub fn create(&mut self, path: &str, text: &str) -> Result<FileId, Unwritten> {
        let within = Path::new(path)
            .components()
            .all(|step| matches!(step, Component::Normal(_)));
        let written = match within && !path.is_empty() {
            true => create(&self.folder.join(path), text.as_bytes()),
            false => Err(WhyUnwritten::Outside),
        };
        written.map_err(|why| Unwritten {
            path: path.to_string(),
            why,
        })?;
        Ok(self.add(path, text))
    }
}

/// Writes bytes over whatever lies at a path without links; a pipe or device is written to as it is.
pub(super) fn overwrite(path: &Path, bytes: &[u8]) -> Result<(), WhyUnwritten> {
    match fs::metadata(path).ok() {
        Some(about) if !about.is_file() => fs::write(path, bytes).map_err(refusal),
        Some(about) => swap(path, &about, bytes, || Ok(())),
        None => create_in(path, bytes, |file, path| file.persist(path)),
    }
}

fn refusal(fault: io::Error) -> WhyUnwritten {
    WhyUnwritten::System(system_words(&fault))
}

/// Puts new bytes in the place of a file's old ones, which must be there.
fn replace(path: &Path, old: &[u8], new: &[u8]) -> Result<(), WhyUnwritten> {
    let path = path.canonicalize()?;
    let about = fs::metadata(&path)?;
    let unchanged = || {
        if fs::read(&path)? == old {
            Ok(())
        } else {
            Err(WhyUnwritten::Changed)
        }
    };
    unchanged()?;
    swap(&path, &about, new, unchanged)
}

/// Writes bytes beside a file and gives them its name, if `ready` still agrees at that moment.
fn swap(
    path: &Path,
    about: &fs::Metadata,
    bytes: &[u8],
    ready: impl Fn() -> Result<(), WhyUnwritten>,
) -> Result<(), WhyUnwritten> {
    if about.permissions().readonly() {
        return Err(WhyUnwritten::Protected);
    }
    let beside = beside(path, bytes, false)?;
    keep_owner(beside.as_file(), about);
    beside.as_file().set_permissions(about.permissions())?;
    ready()?;
    beside
        .persist(path)
        .map_err(|fault| WhyUnwritten::from(fault.error))?;
    settle(path);
    Ok(())
}

fn create(path: &Path, bytes: &[u8]) -> Result<(), WhyUnwritten> {
    if let Some(folder) = path.parent() {
        fs::create_dir_all(folder).map_err(refusal)?;
    }
    create_in(path, bytes, |file, path| file.persist_noclobber(path))
}

/// Writes bytes beside a path and gives them its name.
fn create_in(
    path: &Path,
    bytes: &[u8],
    name: impl FnOnce(tempfile::NamedTempFile, &Path) -> Result<fs::File, tempfile::PersistError>,
) -> Result<(), WhyUnwritten> {
    let beside = beside(path, bytes, true)?;
    name(beside, path).map_err(|fault| WhyUnwritten::from(fault.error))?;
    settle(path);
    Ok(())
}

/// A file with these bytes in the folder of a path, on disk and read back; it vanishes unless it gets a name.
/// Only its owner may read it, unless it is a new file and not to take an old one's place.
fn beside(path: &Path, bytes: &[u8], new: bool) -> Result<tempfile::NamedTempFile, WhyUnwritten> {
    let folder = path
        .parent()
        .filter(|folder| !folder.as_os_str().is_empty())
        .unwrap_or(Path::new("."));
    left_behind::clear(folder);
    let mut file = held(folder, new).map_err(refusal)?;
    file.write_all(bytes)
        .and_then(|()| file.as_file().sync_all())
        .map_err(refusal)?;
    if fs::read(file.path()).map_err(refusal)? != bytes {
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

/// Forces the folder's list of names to disk, where the system can; the bytes themselves are there already.
fn settle(path: &Path) {
    if cfg!(unix)
        && let Some(folder) = path.parent()
        && let Ok(folder) = fs::File::open(folder)
    {
        folder.sync_all().ok();
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

/// Asks for what any new file gets, less what the user's mask takes away; a temporary file is otherwise its owner's.
#[cfg(unix)]
fn as_any_new_file(builder: &mut tempfile::Builder<'_, '_>) {
    use std::os::unix::fs::PermissionsExt;
    builder.permissions(fs::Permissions::from_mode(0o666));
}

#[cfg(not(unix))]
fn as_any_new_file(_: &mut tempfile::Builder<'_, '_>) {}
