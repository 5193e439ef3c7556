//! `docs/photos.md` is true: its commands print what it shows, in a folder with a registry and a picture without a tag.

use crate::run::hold_in;
use std::path::Path;

const PAGE: &str = include_str!("../../docs/photos.md");

#[test]
fn the_page_is_true() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("registry-demo");
    let copy = tempfile::tempdir().expect("a temporary folder can be made");
    let phone = copy.path().join("phone");
    std::fs::create_dir(&phone).expect("a folder can be made");
    for file in ["registry.ron", "species.ron", "clones.ron"] {
        std::fs::copy(demo.join(file), copy.path().join(file)).expect("a file can be copied");
    }
    let photos = std::fs::read_dir(demo.join("photos")).expect("the demo has photos");
    let photo = photos.flatten().next().expect("the demo has a photo");
    std::fs::copy(photo.path(), phone.join("IMG_0001.jpg")).expect("a file can be copied");
    hold_in("photos.md", PAGE, copy.path());
}
