//! One file on disk, by whatever name it is reached.

#[cfg(unix)]
use std::fs;
use std::path::Path;

/// Tells one file on disk from every other, by whatever name it is reached.
#[cfg(unix)]
#[derive(PartialEq)]
pub(super) struct Identity(u64, u64);

#[cfg(unix)]
impl Identity {
    pub(super) fn of(path: &Path) -> Option<Self> {
        use std::os::unix::fs::MetadataExt;
        let about = fs::metadata(path).ok()?;
        Some(Self(about.dev(), about.ino()))
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
}
