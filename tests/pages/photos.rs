//! `docs/photos.md` is true: its commands print what it shows, on a copy of the demo and pictures made for it.

use crate::album::demo_copy;
use crate::camera::{CLEAR, at, jpeg, lay, leaves};
use crate::run::hold_in;

const PAGE: &str = include_str!("../../docs/photos.md");

#[test]
fn the_page_is_true() {
    let copy = demo_copy();
    let phone = copy.path().join("phone");
    std::fs::create_dir(&phone).expect("a folder can be made");
    let mut tag = leaves((640, 480), 3);
    lay(&mut tag, "X22-02-5", CLEAR);
    let pictures = [
        ("IMG_0101.jpg", jpeg(&tag, at("2025:05:10 14:03:10"))),
        (
            "IMG_0102.jpg",
            jpeg(&leaves((640, 480), 7), at("2025:05:10 14:04:40")),
        ),
        (
            "IMG_0103.jpg",
            jpeg(&leaves((640, 480), 8), at("2025:05:10 14:31:00")),
        ),
    ];
    for (name, bytes) in pictures {
        std::fs::write(phone.join(name), bytes).expect("a file can be written");
    }
    hold_in("photos.md", PAGE, copy.path());
}
