//! The file of choices beside tables that are brought in: the one file of its ending that is no page of records.
//!
//! It may lie in a registry's folder, which passes it over, but never where the registry looks for pages of crosses.

use super::folder::{CHOICES, CROSSES, read_text};
use super::kept::Kept;
use super::outlet::{NoOutlet, Outlet, followed, page_at};
use super::unread::WhyUnread;
use std::path::Path;

/// The place for choices that a path leads to; `registry` is the folder whose pages are to be kept.
///
/// # Errors
/// If it is a page, or would be read as one.
pub fn outlet_for_choices(path: &Path, registry: Option<&Path>) -> Result<Outlet, NoOutlet> {
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
    Ok(Outlet::to(path, target))
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
