//! Whether the pages of a registry are still those that were read, without reading them again.

use super::folder::listed;
use std::fs;
use std::path::Path;
use std::time::{Duration, UNIX_EPOCH};

/// What the system says of every page and of the file of goals: name, length, when it was changed, and which file it is.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Stamp(Vec<(String, u64, Option<Duration>, u64)>);

/// The stamp of a registry's folder.
pub fn stamp(folder: &Path) -> Stamp {
    let of = |path: String| {
        let about = fs::metadata(folder.join(&path)).ok();
        let length = about.as_ref().map_or(0, fs::Metadata::len);
        let changed = about
            .as_ref()
            .and_then(|about| about.modified().ok()?.duration_since(UNIX_EPOCH).ok());
        let file = about.as_ref().map_or(0, which);
        (path, length, changed, file)
    };
    Stamp(listed(folder).into_iter().map(of).collect())
}

/// The number of a file on its disk, where the system has one.
#[cfg(unix)]
fn which(about: &fs::Metadata) -> u64 {
    std::os::unix::fs::MetadataExt::ino(about)
}

#[cfg(not(unix))]
fn which(_: &fs::Metadata) -> u64 {
    0
}
