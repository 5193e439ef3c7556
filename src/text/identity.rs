//! One file on disk, by whatever name it is reached.

use std::fs::File;
use std::path::Path;

/// Tells one file on disk from every other, by whatever name it is reached.
#[cfg(unix)]
#[derive(PartialEq)]
pub(super) struct Identity(u64, u64);

#[cfg(unix)]
impl Identity {
    pub(super) fn of(path: &Path) -> Option<Self> {
        std::fs::metadata(path)
            .ok()
            .map(|about| Self::about(&about))
    }

    pub(super) fn of_file(file: &File) -> Option<Self> {
        file.metadata().ok().map(|about| Self::about(&about))
    }

    fn about(about: &std::fs::Metadata) -> Self {
        use std::os::unix::fs::MetadataExt;
        Self(about.dev(), about.ino())
    }
}

/// Tells one file on disk from every other, by whatever name it is reached.
#[cfg(not(unix))]
#[derive(PartialEq)]
pub(super) struct Identity(same_file::Handle);

#[cfg(not(unix))]
impl Identity {
    pub(super) fn of(path: &Path) -> Option<Self> {
        same_file::Handle::from_path(path).ok().map(Self)
    }

    pub(super) fn of_file(file: &File) -> Option<Self> {
        let file = file.try_clone().ok()?;
        same_file::Handle::from_file(file).ok().map(Self)
    }
}
