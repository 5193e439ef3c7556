//! `docs/merging.md` is true: its commands print what it shows, on two copies of the demo.

use crate::run::hold_in;
use std::path::Path;

const PAGE: &str = include_str!("../../docs/merging.md");

#[test]
fn the_page_is_true() {
    let scratch = tempfile::tempdir().expect("a scratch folder");
    for name in ["mine", "partner"] {
        let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
        copy(&demo, &scratch.path().join(name));
    }
    hold_in("merging.md", PAGE, scratch.path());
}

/// Copies the pages of a registry.
fn copy(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("a folder");
    for entry in std::fs::read_dir(from).expect("a folder") {
        let path = entry.expect("an entry").path();
        let to = to.join(path.file_name().expect("a name"));
        if path.file_name().is_some_and(|name| name == "crosses") {
            copy(&path, &to);
        } else if path.extension().is_some_and(|ending| ending == "ron") {
            std::fs::copy(&path, &to).expect("a page");
        }
    }
}
