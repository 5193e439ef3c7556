//! Where an answer may be written: over a file of its own, never over a page of records or a file that one names.
//!
//! A path is followed to the file it leads to, through links and linked folders, and that file is what counts: a page of
//! the registry is known by its identity on disk, by whatever name it is reached. A name that a later run would read as a
//! page is refused as well. A link to another file is kept, and the file it leads to gets the answer.

use std::fs;
use std::io::ErrorKind;
use std::path::{Path, PathBuf};

use super::disk::overwrite;
use super::folder::{INTENT, listed};
use super::identity::Identity;
use super::kept::{Kept, kept};
use super::refusal::system_words;
use super::unwritten::Unwritten;

/// A place for an answer that was found free of pages.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Outlet {
    path: PathBuf,
    target: PathBuf,
}

/// Why no answer is written to a path. Nothing was changed.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum NoOutlet {
    /// It is a page of the registry, or leads to one; its path relative to the registry's folder.
    Page(String),
    /// It is kept for something else, in this registry or another.
    Kept(Kept),
    /// A folder bears its name.
    Folder,
    /// Its name is a link to nothing.
    LinkBroken,
    /// Its name is a link that leads in a circle, or through too many links.
    LinkCircle,
    /// Its folder does not exist.
    NoFolder(PathBuf),
    /// The system refused, in its own words.
    System(String),
}

impl Outlet {
    /// The place a path leads to, if an answer may go there; `registry` is the folder whose pages are to be kept.
    ///
    /// # Errors
    /// Why no answer may go there.
    pub fn of(path: &Path, registry: Option<&Path>) -> Result<Self, NoOutlet> {
        let target = followed(path)?;
        if let Some(page) = registry.and_then(|folder| page_at(folder, &target)) {
            return Err(NoOutlet::Page(page));
        }
        let why = kept(&target, registry).or_else(|| kept(path, registry));
        if let Some(why) = why {
            return Err(NoOutlet::Kept(why));
        }
        Ok(Outlet::to(path, target))
    }

    pub(super) fn to(path: &Path, target: PathBuf) -> Outlet {
        let path = path.to_path_buf();
        Outlet { path, target }
    }

    /// Whether something bears the name already.
    pub fn is_there(&self) -> bool {
        fs::symlink_metadata(&self.path).is_ok()
    }

    /// Writes bytes in the place of whatever the file held, whole or not at all; a pipe or device is written to as it is.
    ///
    /// # Errors
    /// If the system refuses.
    pub fn save(&self, bytes: &[u8]) -> Result<(), Unwritten> {
        overwrite(&self.target, bytes).map_err(|why| Unwritten {
            path: self.path.to_string_lossy().into_owned(),
            why,
        })
    }
}

/// The path without links: of what is there, or of the name in the folder where it will be.
pub(super) fn followed(path: &Path) -> Result<PathBuf, NoOutlet> {
    let fault = match fs::metadata(path) {
        Ok(about) if about.is_dir() => return Err(NoOutlet::Folder),
        // A pipe has no path of its own to follow.
        Ok(about) if !about.is_file() => return Ok(path.to_path_buf()),
        Ok(_) => return path.canonicalize().map_err(|fault| system(&fault)),
        Err(fault) => fault,
    };
    let is_link = fs::symlink_metadata(path).is_ok_and(|about| about.is_symlink());
    match fault.kind() {
        ErrorKind::PermissionDenied => Err(system(&fault)),
        ErrorKind::NotFound if is_link => Err(NoOutlet::LinkBroken),
        ErrorKind::NotFound => in_its_folder(path),
        _ if is_link => Err(NoOutlet::LinkCircle),
        _ => Err(system(&fault)),
    }
}

fn in_its_folder(path: &Path) -> Result<PathBuf, NoOutlet> {
    let name = path.file_name().ok_or(NoOutlet::Folder)?;
    let folder = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    match folder.canonicalize() {
        Ok(folder) => Ok(folder.join(name)),
        Err(fault) if fault.kind() == ErrorKind::NotFound => {
            Err(NoOutlet::NoFolder(folder.to_path_buf()))
        }
        Err(fault) => Err(system(&fault)),
    }
}

fn system(fault: &std::io::Error) -> NoOutlet {
    NoOutlet::System(system_words(fault))
}

/// Which page of the registry a file is, be it sound, faulty or unreadable. What a change was to write is none.
pub(super) fn page_at(registry: &Path, target: &Path) -> Option<String> {
    let own = Identity::of(target)?;
    let is_own = |page: &String| Identity::of(&registry.join(page)).is_some_and(|id| id == own);
    let pages = listed(registry).into_iter();
    pages.filter(|page| page != INTENT).find(is_own)
}
