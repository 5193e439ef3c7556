//! Pictures taken in by the command: reported on first, copied when told to, known again, taken back.

use crate::bench_top::BenchTop;
use crate::camera::{Beside, CLEAR, PLACE, View, at, jpeg, lay, leaves};
use std::collections::BTreeMap;
use std::path::Path;

const SIZE: (u32, u32) = (640, 480);

/// A picture of a tag.
pub fn of_tag(code: &str, beside: Beside) -> Vec<u8> {
    let mut picture = leaves(SIZE, 3);
    lay(&mut picture, code, CLEAR);
    jpeg(&picture, beside)
}

/// A picture of leaves.
pub fn of_leaves(seed: u64, beside: Beside) -> Vec<u8> {
    jpeg(&leaves(SIZE, seed), beside)
}

/// Two plants, each after its tag; the names run against the clock.
fn phone() -> BenchTop {
    BenchTop::sound()
        .bytes(
            "phone/d.jpg",
            &of_tag("X22-02-1", at("2024:05:10 14:00:00")),
        )
        .bytes("phone/c.jpg", &of_leaves(7, at("2024:05:10 14:01:30")))
        .bytes("phone/b.jpg", &of_tag("V1-a", at("2024:05:10 14:02:00")))
        .bytes("phone/a.jpg", &of_leaves(8, at("2024:05:10 14:06:00")))
}

/// Every file below a folder with its bytes.
fn files(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    entries
        .filter(|entry| entry.path().is_file())
        .map(|entry| {
            let name = entry.file_name().to_string_lossy().into_owned();
            (name, std::fs::read(entry.path()).expect("a file"))
        })
        .collect()
}

fn holds(bytes: &[u8], words: &[u8]) -> bool {
    bytes.windows(words.len()).any(|found| found == words)
}

#[test]
fn the_clock_orders_pictures_and_the_report_writes_nothing() {
    let top = phone();
    let run = top.run(&["photos", "phone"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(
        run.stdout
            .starts_with("4 pictures: 4 would be taken in, of 2 plants; 0 not placed. Nothing was"),
        "{run}"
    );
    let row = |name: &str| {
        let row = run
            .stdout
            .lines()
            .find(|line| line.trim_start().starts_with(name));
        row.unwrap_or_else(|| panic!("no {name}: {run}"))
    };
    assert!(
        row("d.jpg").contains("2024-05-10 14:00") && row("d.jpg").contains("tag in the picture")
    );
    assert!(
        row("c.jpg").contains("X22-02-1")
            && row("c.jpg").contains("tag in d.jpg, 1 minute earlier")
    );
    assert!(
        row("a.jpg").contains("V1-a") && row("a.jpg").contains("tag in b.jpg, 4 minutes earlier")
    );
    assert!(run.stdout.contains("podbook photos phone --apply"), "{run}");
    assert!(!top.path().join("photos").exists());
}

#[test]
fn a_pause_ends_what_a_tag_stands_for() {
    let run = phone().run(&["photos", "phone", "--gap", "3"]);
    assert!(run.stdout.contains("1 not placed"), "{run}");
    assert!(
        run.stdout.contains("no tag since a pause of 4 minutes"),
        "{run}"
    );
    assert!(run.stdout.contains("photos phone --gap 3 --apply"), "{run}");
    // A few seconds more than is allowed are not called what is allowed; a wrong clock is no pause.
    let top = phone()
        .bytes("phone/e.jpg", &of_leaves(9, at("2024:05:10 14:11:30")))
        .bytes("phone/f.jpg", &of_leaves(10, at("2024:05:12 14:11:30")))
        .bytes("phone/g.jpg", &of_leaves(11, at("2090:05:10 14:00:00")));
    let run = top.run(&["photos", "phone", "--gap", "5"]);
    for wanted in [
        "no tag since a pause of 6 minutes",
        "no tag since a pause of 2 days",
        "taken after today",
    ] {
        assert!(run.stdout.contains(wanted), "{wanted}: {run}");
    }
}

#[test]
fn pictures_are_taken_in_once_and_taken_back() {
    let top = phone();
    let originals = files(&top.path().join("phone"));
    let pages = ["clones.ron", "crosses/X22-02.ron"].map(|page| top.text(page));
    let run = top.run(&["photos", "phone", "--apply"]);
    assert!(
        run.stdout
            .starts_with("Recorded 4 photos of 2 plants; 0 not placed"),
        "{run}"
    );
    let copies = files(&top.path().join("photos"));
    assert_eq!(copies.len(), 4, "{:?}", copies.keys());
    for (name, copy) in &copies {
        assert!(
            name.starts_with("X22-02-1-2024-05-10-") || name.starts_with("V1-a-2024-05-10-"),
            "{name}"
        );
        assert!(!holds(copy, PLACE) && !holds(copy, b"Exif"), "{name}");
        let page = top.text("clones.ron") + &top.text("crosses/X22-02.ron");
        let entry = format!("(file: \"photos/{name}\", on: \"2024-05-10\"");
        assert_eq!(page.matches(&entry).count(), 1, "{name}");
    }
    assert!(top.text("clones.ron").contains("note: \"piece a\""));
    assert!(originals.values().all(|original| holds(original, PLACE)));
    assert_eq!(files(&top.path().join("phone")), originals);
    assert_eq!(top.run(&["check"]).exit, Some(0));

    let again = top.run(&["photos", "phone", "--apply"]);
    assert!(
        again
            .stdout
            .starts_with("4 pictures: nothing new to take in; 0 not placed, 4 on record already"),
        "{again}"
    );
    assert_eq!(files(&top.path().join("photos")), copies);

    let undone = top.run(&["undo"]);
    assert_eq!(undone.exit, Some(0), "{undone}");
    assert_eq!(
        ["clones.ron", "crosses/X22-02.ron"].map(|page| top.text(page)),
        pages
    );
    assert_eq!(files(&top.path().join("photos")), copies);
    let redone = top.run(&["photos", "phone", "--apply"]);
    assert!(redone.stdout.starts_with("Recorded 4 photos"), "{redone}");
    assert_eq!(files(&top.path().join("photos")), copies);
}

/// The light is said once for the folder, repeated in the next command, and stands with every photo.
#[test]
fn the_light_goes_with_every_photo() {
    let top = phone();
    let run = top.run(&["photos", "phone", "--light", "LED, 14 h"]);
    let next = "podbook photos phone --light 'LED, 14 h' --apply";
    assert!(run.stdout.contains(next), "{run}");
    let run = top.run(&["photos", "phone", "--light", "LED, 14 h", "--apply"]);
    assert!(run.stdout.starts_with("Recorded 4 photos"), "{run}");
    let page = top.text("clones.ron") + &top.text("crosses/X22-02.ron");
    assert_eq!(page.matches("light: \"LED, 14 h\"").count(), 4, "{page}");
    let shown = top.run(&["card", "X22-02-1"]);
    assert!(shown.stdout.contains("light: LED, 14 h"), "{shown}");
}

/// Lying as the camera held it, larger than a copy may be.
#[test]
fn a_copy_is_small_and_upright() {
    let mut picture = leaves((2000, 1500), 5);
    lay(&mut picture, "X22-02-1", View { size: 0.1, ..CLEAR });
    let lying = Beside {
        taken: Some("2024:05:10 14:00:00"),
        orientation: 6,
    };
    let top = BenchTop::sound().bytes("phone/a.JPG", &jpeg(&picture, lying));
    let run = top.run(&["photos", "phone", "--apply"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let copies = files(&top.path().join("photos"));
    let copy = copies.values().next().unwrap_or_else(|| panic!("{run}"));
    let copy = image::load_from_memory(copy).expect("a JPEG");
    assert_eq!((copy.width(), copy.height()), (1200, 1600));
}

/// Several pictures after one tag: the first is placed, the others are asked about and taken in when the grower says so.
#[test]
fn later_pictures_after_a_tag_are_asked_about() {
    let top = phone()
        .bytes("phone/e.jpg", &of_leaves(9, at("2024:05:10 14:06:30")))
        .bytes("phone/f.jpg", &of_leaves(10, at("2024:05:10 14:07:00")));
    let run = top.run_without_width(&["photos", "phone", "--width", "200"]);
    assert!(
        run.stdout.starts_with(
            "6 pictures: 4 would be taken in, of 2 plants; 0 not placed, 2 in question."
        ),
        "{run}"
    );
    let says = "V1-a   picture 2 after the tag in b.jpg, 4 minutes earlier";
    assert!(run.stdout.contains(says), "{run}");
    assert!(run.stdout.contains("as in --likely e.jpg"), "{run}");

    let wrong = top.run(&["photos", "phone", "--likely", "a.jpg"]);
    assert_eq!(wrong.exit, Some(2), "{wrong}");
    assert!(wrong.stderr.contains("a.jpg is not in question"), "{wrong}");

    let one = top.run(&["photos", "phone", "--likely", "e.jpg", "--apply"]);
    assert!(
        one.stdout
            .starts_with("Recorded 5 photos of 2 plants; 0 not placed, 1 in question"),
        "{one}"
    );
    let all = top.run(&["photos", "phone", "--likely", "all", "--apply"]);
    assert!(
        all.stdout.starts_with("Recorded 1 photo of 1 plant"),
        "{all}"
    );
    assert_eq!(files(&top.path().join("photos")).len(), 6);
}

/// Folders are read one by one: each has its own clock and its own tags.
#[test]
fn folders_inside_are_read_each_for_itself() {
    let top = phone()
        .bytes("phone/two/b.jpg", &of_leaves(9, at("2024:05:10 14:00:30")))
        .bytes(
            "phone/two/inner/d.jpg",
            &of_tag("X22-02-2", at("2024:05:10 14:00:40")),
        )
        .bytes(
            "phone/two/inner/c.jpg",
            &of_leaves(10, at("2024:05:10 14:01:00")),
        )
        .bytes(
            "phone/.hidden/c.jpg",
            &of_leaves(11, at("2024:05:10 14:01:00")),
        );
    let run = top.run_without_width(&["photos", "phone", "--width", "200"]);
    assert!(
        run.stdout
            .starts_with("7 pictures: 6 would be taken in, of 3 plants; 1 not placed"),
        "{run}"
    );
    let row = |name: &str| {
        let row = run.stdout.lines().find(|line| line.contains(name));
        row.unwrap_or_else(|| panic!("no {name}: {run}")).to_owned()
    };
    assert!(
        row("two/b.jpg").contains("none in a picture before it"),
        "{run}"
    );
    assert!(
        row("two/inner/c.jpg").contains("tag in two/inner/d.jpg"),
        "{run}"
    );
    let applied = top.run(&["photos", "phone", "--apply"]);
    assert!(applied.stdout.starts_with("Recorded 6 photos"), "{applied}");
}

/// A picture without a date may be the tag of what was taken after another tag.
#[test]
fn a_tag_without_a_date_makes_the_order_a_question() {
    let undated = Beside {
        taken: None,
        orientation: 1,
    };
    let top = phone().bytes("phone/sent.jpg", &of_tag("X22-02-2", undated));
    let run = top.run_without_width(&["photos", "phone", "--width", "200"]);
    assert!(
        run.stdout.starts_with(
            "5 pictures: 2 would be taken in, of 2 plants; 1 not placed, 2 in question"
        ),
        "{run}"
    );
    assert!(
        run.stdout
            .contains("a picture without a date may show a tag between"),
        "{run}"
    );
}
