//! Files and folders that a registry keeps beside its pages: no answer and no new folder may take their place.

use super::folder::{CROSSES, find_registry, is_ron, is_ron_by_mistake};
use super::identity::Identity;
use super::source::Sources;
use std::path::{Path, PathBuf};

/// Folders of a registry that hold its pages, what `undo` needs, and the photos that were taken in.
const FOLDERS: [&str; 3] = [CROSSES, "journal", "photos"];
/// How the hidden files begin that podbook keeps for itself.
const OWN: &str = ".podbook-";

/// What keeps a path, without links, from being written to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Kept {
    /// Its name ends as that of a page of records.
    NamedAsPage,
    /// It is one of the registry's own folders, by its usual name.
    Folder(&'static str),
    /// It is inside one of them.
    InFolder(&'static str),
    /// A hidden file or folder of ours.
    Own,
    /// A page names the file; the page's path relative to the registry's folder.
    Named(String),
}

/// Why nothing may be written at a path without links: `registry` is the one that is asked about, and the one the path
/// stands in counts as well.
pub(super) fn kept(target: &Path, registry: Option<&Path>) -> Option<Kept> {
    let name = name_of(target);
    let around = target.ancestors().skip(1).find_map(find_registry);
    let asked = registry.and_then(|folder| folder.canonicalize().ok());
    let inside = asked.iter().chain(&around).filter_map(|folder| {
        let path = target.strip_prefix(folder).ok()?;
        Some((folder, path))
    });
    let inside: Vec<(&PathBuf, &Path)> = inside.collect();
    if is_ron(&name) || (is_ron_by_mistake(&name) && !inside.is_empty()) {
        Some(Kept::NamedAsPage)
    } else if name.starts_with(OWN) {
        Some(Kept::Own)
    } else {
        inside
            .iter()
            .find_map(|(folder, path)| in_folder(path).or_else(|| named(folder, target)))
    }
}

/// Whether a path, relative to the registry's folder, is one of the folders that are kept, or inside one.
fn in_folder(path: &Path) -> Option<Kept> {
    let mut parts = path.iter();
    let first = parts.next()?;
    let kept = FOLDERS
        .into_iter()
        .find(|kept| first.eq_ignore_ascii_case(kept))?;
    Some(match parts.next() {
        None => Kept::Folder(kept),
        Some(_) => Kept::InFolder(kept),
    })
}

/// The page that names a file which is there. The texts of pages are searched, so that faulty ones count too.
fn named(folder: &Path, target: &Path) -> Option<Kept> {
    let name = target.file_name()?.to_str()?;
    let own = Identity::of(target)?;
    let pages = Sources::read(folder);
    let names_it = |text: &str| {
        let quoted = text.split('"').filter(|words| words.ends_with(name));
        let mut files = quoted.map(|words| folder.join(words));
        files.any(|file| Identity::of(&file).as_ref() == Some(&own))
    };
    let (_, page) = pages.iter().find(|(_, page)| names_it(&page.text))?;
    Some(Kept::Named(page.path.clone()))
}

/// A file's name, without the dots and blanks at its end that some systems leave away.
pub(super) fn name_of(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    name.trim_end_matches(['.', ' ']).to_owned()
}
