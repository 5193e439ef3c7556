//! Pictures that cannot be read, or of which no use can be made: each is listed with the reason, and none is guessed.

use crate::bench_top::BenchTop;
use crate::camera::{Beside, CLEAR, at, jpeg, lay, leaves};
use crate::taking_in::{of_leaves, of_tag};

fn says(top: &BenchTop, words: &[&str]) {
    let run = top.run_without_width(&["photos", "phone", "--width", "200"]);
    assert_eq!(run.exit, Some(0), "{run}");
    words
        .iter()
        .for_each(|words| assert!(run.stdout.contains(words), "{words}: {run}"));
}

#[test]
fn a_tag_that_cannot_be_used_places_nothing_after_it() {
    let tags = [
        (
            "Z99-01-1",
            "its tag says Z99-01-1, which is not on record",
            "shows a tag that is not on record",
        ),
        (
            "X22-02",
            "its tag, X22-02, is not the tag of a plant",
            "shows a tag that is not a plant's",
        ),
    ];
    for (code, own, after) in tags {
        let top = BenchTop::sound()
            .bytes(
                "phone/1.jpg",
                &of_tag("X22-02-1", at("2024:05:10 14:00:00")),
            )
            .bytes("phone/2.jpg", &of_tag(code, at("2024:05:10 14:01:00")))
            .bytes("phone/3.jpg", &of_leaves(7, at("2024:05:10 14:02:00")));
        says(&top, &["1 would be taken in", "2 not placed", own, after]);
    }
}

#[test]
fn files_that_are_no_pictures_are_named() {
    let whole = of_leaves(9, at("2024:05:10 14:02:00"));
    let top = BenchTop::sound()
        .bytes(
            "phone/1.jpg",
            &of_tag("X22-02-1", at("2024:05:10 14:00:00")),
        )
        .bytes("phone/2.jpg", &whole[..whole.len() / 2])
        .bytes("phone/3.jpg", &of_leaves(7, at("2024:05:10 14:03:00")))
        .bytes("phone/4.jpg", b"no picture at all")
        .bytes("phone/5.heic", b"....ftypheic")
        .bytes("phone/6.jpg", b"")
        .bytes("phone/notes.txt", b"words");
    says(
        &top,
        &[
            "6 pictures: 1 would be taken in",
            "cannot be read: it is cut off before its end",
            "no tag in it, and 2.jpg before it cannot be read",
            "cannot be read: its format is neither JPEG nor PNG",
            "HEIC is a format podbook does not read; send it from the phone as JPEG",
            "1 other file left out",
        ],
    );
}

#[test]
fn a_day_that_cannot_be_right_places_nothing() {
    let undated = Beside {
        taken: None,
        orientation: 1,
    };
    let top = BenchTop::sound()
        .bytes(
            "phone/1.jpg",
            &of_tag("X22-02-1", at("2034:05:10 14:00:00")),
        )
        .bytes("phone/2.jpg", &of_tag("X22-02-1", undated))
        .bytes(
            "phone/3.jpg",
            &of_tag("X22-02-1", at("2012:05:10 14:00:00")),
        )
        .bytes("phone/4.jpg", &of_leaves(4, at("2012:05:10 13:59:00")))
        .bytes("phone/5.jpg", &of_leaves(6, at("2012:99:99 13:59:00")));
    says(
        &top,
        &[
            "nothing new to take in; 5 not placed",
            "taken after today: the camera's clock was wrong",
            "does not say when it was taken",
            "taken before X22-02-1 was sown",
            "no tag in it, and none in a picture before it",
        ],
    );
}

/// Of a plant that died in April no picture is taken in May; one of the day it died may be of it.
#[test]
fn a_plant_that_died_is_in_no_later_picture() {
    let top = BenchTop::sound()
        .bytes(
            "phone/1.jpg",
            &of_tag("X22-02-1", at("2024:04:02 14:00:00")),
        )
        .bytes(
            "phone/2.jpg",
            &of_tag("X22-02-1", at("2024:04:01 14:00:00")),
        );
    let died = top.run(&["gone", "X22-02-1", "--died", "--on", "2024-04-01"]);
    assert_eq!(died.exit, Some(0), "{died}");
    says(
        &top,
        &[
            "1 not placed",
            "taken after X22-02-1 died or left (2024-04-01 at the latest)",
        ],
    );
}

/// While it, or the piece of the tag, stood with its buyer no picture was taken of it here; of the days before and after there
/// may be one.
#[test]
fn a_plant_that_came_back_is_in_no_picture_of_the_time_between() {
    let taken = |code: &str, day: &str| of_tag(code, at(&format!("2024:04:{day} 14:00:00")));
    let top = BenchTop::sound()
        .bytes("phone/1.jpg", &taken("X22-02-1", "01"))
        .bytes("phone/2.jpg", &taken("X22-02-1", "05"))
        .bytes("phone/3.jpg", &taken("X22-02-1", "12"))
        .bytes("phone/4.jpg", &taken("X22-02-2-b", "06"));
    for line in [
        "cutting X22-02-2 --code b --on 2024-03-20",
        "gone X22-02-1 --sold --on 2024-04-02",
        "back X22-02-1 --place=shelf --on 2024-04-10",
        "gone X22-02-2-b --sold --on 2024-04-03",
        "back X22-02-2-b --place=shelf --on 2024-04-11",
    ] {
        let run = top.run(&line.split(' ').collect::<Vec<_>>());
        assert_eq!(run.exit, Some(0), "{run}");
    }
    says(
        &top,
        &[
            "2 not placed",
            "taken while X22-02-1 was away (left 2024-04-02, back 2024-04-10)",
            "taken while X22-02-2 was away (left 2024-04-03, back 2024-04-11)",
        ],
    );
}

#[test]
fn two_tags_in_a_picture_are_no_tag_of_one_plant() {
    let (mut left, mut right) = (leaves((400, 480), 1), leaves((400, 480), 2));
    lay(&mut left, "X22-02-1", CLEAR);
    lay(&mut right, "X22-02-2", CLEAR);
    let both = image::GrayImage::from_fn(800, 480, |x, y| match x < 400 {
        true => *left.get_pixel(x, y),
        false => *right.get_pixel(x - 400, y),
    });
    let top = BenchTop::sound().bytes("phone/1.jpg", &jpeg(&both, at("2024:05:10 14:00:00")));
    says(&top, &["several tags in it: X22-02-1, X22-02-2"]);
}

#[cfg(unix)]
#[test]
fn links_that_lead_out_are_not_followed() {
    let top = BenchTop::sound()
        .bytes(
            "phone/1.jpg",
            &of_tag("X22-02-1", at("2024:05:10 14:00:00")),
        )
        .bytes(
            "elsewhere/secret.jpg",
            &of_tag("X22-02-2", at("2024:05:10 14:00:00")),
        );
    let link = |from: &str, to: &str| {
        std::os::unix::fs::symlink(top.path().join(from), top.path().join(to)).expect("a link");
    };
    link("elsewhere/secret.jpg", "phone/2.jpg");
    says(
        &top,
        &["1 would be taken in", "1 not placed", "cannot be read"],
    );
    // The folder of copies leads elsewhere: a card would not show what is in it.
    let outside = tempfile::tempdir().expect("a folder");
    std::os::unix::fs::symlink(outside.path(), top.path().join("photos")).expect("a link");
    let run = top.run(&["photos", "phone", "--apply"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(run.stderr.contains("leads out of the registry"), "{run}");
    assert!(run.stderr.contains("nothing was recorded"), "{run}");
    assert!(!top.text("crosses/X22-02.ron").contains("photos/"));
    assert_eq!(
        std::fs::read_dir(outside.path()).expect("a folder").count(),
        0
    );
}

#[test]
fn a_folder_that_is_none_is_said() {
    let run = BenchTop::sound().run(&["photos", "nowhere"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(run.stderr.contains("nowhere is not a folder"), "{run}");
}

#[cfg(unix)]
#[test]
fn a_picture_whose_name_is_not_utf8_is_named() {
    use std::os::unix::ffi::OsStrExt;
    let top = BenchTop::sound().bytes("phone/a.jpg", b"no picture");
    let name = std::ffi::OsStr::from_bytes(b"n\xff.jpg");
    std::fs::write(top.path().join("phone").join(name), b"a picture").expect("a file");
    says(&top, &["n\u{fffd}.jpg", "its name is not UTF-8; rename it"]);
}
