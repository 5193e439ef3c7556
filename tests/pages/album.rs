//! `docs/album.md` is true: its commands print what it shows, on a copy of the demo.

use crate::run::hold_in;
use std::path::Path;

const PAGE: &str = include_str!("../../docs/album.md");

/// A copy of the demo.
pub fn demo_copy() -> tempfile::TempDir {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
    let copy = tempfile::tempdir().expect("a temporary folder can be made");
    let mut open = vec![String::new()];
    while let Some(below) = open.pop() {
        for entry in std::fs::read_dir(demo.join(&below)).expect("the demo can be listed") {
            let path = entry.expect("the demo can be listed").path();
            let inside = path
                .strip_prefix(&demo)
                .expect("inside")
                .to_string_lossy()
                .into_owned();
            if path.is_dir() {
                std::fs::create_dir(copy.path().join(&inside)).expect("a folder can be made");
                open.push(inside);
            } else {
                std::fs::copy(&path, copy.path().join(&inside)).expect("a file can be copied");
            }
        }
    }
    copy
}

#[test]
fn the_page_is_true() {
    hold_in("album.md", PAGE, demo_copy().path());
}
