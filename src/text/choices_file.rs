//! The file of choices beside tables that are brought in: the one file of its ending that is no page of records.
//!
//! It may lie in a registry's folder, which passes it over, but never where the registry looks for pages of crosses.

use super::disk::overwrite;
use super::folder::{CHOICES, CROSSES, read_text};
use super::kept::Kept;
use super::outlet::{NoOutlet, followed, page_at};
use super::unread::WhyUnread;
use super::unwritten::Unwritten;
use std::path::{Path, PathBuf};

/// A place for choices that was found free of pages.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct ChoicesFile {
    path: PathBuf,
    target: PathBuf,
}

impl ChoicesFile {
    /// The place a path leads to; `registry` is the folder whose pages are to be kept.
    ///
    /// # Errors
    /// If it is a page, or would be read as one.
    pub fn at(path: &Path, registry: Option<&Path>) -> Result<Self, NoOutlet> {
        let target = followed(path)?;
        if let Some(folder) = registry.and_then(|folder| folder.canonicalize().ok()) {
            if let Some(page) = page_at(&folder, &target) {
                return Err(NoOutlet::Page(page));
            }
            if target.parent() == Some(&folder.join(CROSSES)) {
                return Err(NoOutlet::Kept(Kept::InFolder(CROSSES)));
            }
        }
        if target.file_name().is_none_or(|name| name != CHOICES) {
            return Err(NoOutlet::Kept(Kept::NamedAsPage));
        }
        Ok(Self {
            path: path.to_path_buf(),
            target,
        })
    }

    /// Writes the choices, whole or not at all.
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

/// The text of a file of choices without a byte-order mark; none where there is no such file.
///
/// # Errors
/// Why it could not be read.
pub fn read_choices(path: &Path) -> Result<Option<String>, WhyUnread> {
    match read_text(path) {
        Ok(text) => Ok(Some(text.trim_start_matches('\u{feff}').to_owned())),
        Err(WhyUnread::Gone) => Ok(None),
        Err(why) => Err(why),
    }
}
