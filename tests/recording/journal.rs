//! The journal in the surroundings that files meet: names that no screen shows, entries cut in half, pages too long to be
//! read, two people's journals in one folder. What is said of a change is never surer than its entry.

use crate::played::{copied, said};
use podbook::record::Day;
use podbook::recording::draft::PageChange;
use podbook::recording::journal::{Asked, Journal, entry, standing};
use std::fs;
use std::path::{Path, PathBuf};

const TODAY: &str = "2025-07-03";

/// Paths of the journal's entries, in order.
fn entries(folder: &Path) -> Vec<PathBuf> {
    let all = fs::read_dir(folder.join("journal")).unwrap();
    let mut all: Vec<PathBuf> = all.map(|entry| entry.unwrap().path()).collect();
    all.sort();
    all
}

#[test]
fn a_page_gets_its_bytes_back_under_any_name() {
    for name in [
        "X22-02 \u{1f468}\u{200d}\u{1f33e}",
        "X22-02\u{200c}a",
        "soft\u{ad}hyphen",
        "\u{202e}02-22X",
        "\u{301}accent",
        "tab\tand\nbreak",
    ] {
        let demo = copied("registry-demo");
        let page = demo.path().join(format!("crosses/{name}.ron"));
        fs::rename(demo.path().join("crosses/X22-02.ron"), &page).unwrap();
        let was = fs::read(&page).unwrap();
        let gone = said(demo.path(), "gone X22-02-7 --died", TODAY);
        assert!(gone.starts_with("X22-02-7: died"), "{name:?}: {gone}");
        let undone = said(demo.path(), "undo", TODAY);
        assert!(undone.starts_with("Undid change 1"), "{name:?}: {undone}");
        assert_eq!(fs::read(&page).unwrap(), was, "{name:?}");
    }
}

#[test]
fn a_long_entry_is_read_again() {
    let demo = copied("registry-demo");
    let page = demo.path().join("crosses/X22-02.ron");
    let text = fs::read_to_string(&page).unwrap();
    // One line, as a program may save a page: the entry holds it twice.
    let lines = text
        .lines()
        .filter(|line| !line.trim_start().starts_with("//"));
    let line = lines.collect::<Vec<_>>().join(" ");
    let (start, _) = line.rsplit_once(')').unwrap();
    let long = format!("{start} note: \"{}\")\n", "q".repeat(9 << 20));
    fs::write(&page, &long).unwrap();
    said(demo.path(), "keep X20-01-1 --why first", TODAY);
    said(demo.path(), "gone X22-02-7 --died", TODAY);
    let changes = said(demo.path(), "changes", TODAY);
    assert!(
        changes.starts_with("2 changes made by podbook"),
        "{changes}"
    );
    let undone = said(demo.path(), "undo", TODAY);
    assert!(
        undone.starts_with("Undid change 2: podbook gone"),
        "{undone}"
    );
    assert_eq!(fs::read_to_string(&page).unwrap(), long);
}

#[test]
fn a_page_that_could_not_be_read_again_is_not_written() {
    let demo = copied("registry-demo");
    let page = demo.path().join("crosses/X22-02.ron");
    let mut text = fs::read(&page).unwrap();
    let filling = (16 << 20) - text.len() - 13;
    text.extend(format!("//{}\n", "x".repeat(filling)).into_bytes());
    fs::write(&page, &text).unwrap();
    let refused = said(demo.path(), "gone X22-02-7 --died", TODAY);
    let words = "crosses/X22-02.ron could not be written: it would hold";
    assert!(refused.contains(words), "{refused}");
    assert_eq!(fs::read(&page).unwrap(), text);
    assert!(!demo.path().join("journal").exists());
}

#[test]
fn an_unread_page_is_not_called_changed() {
    let demo = copied("registry-demo");
    said(demo.path(), "gone X22-02-7 --died", TODAY);
    fs::write(demo.path().join("crosses/X22-02.ron"), b"\xff").unwrap();
    let refused = said(demo.path(), "undo", TODAY);
    assert!(
        refused.contains("could not be read: line 1 is not UTF-8"),
        "{refused}"
    );
}

#[test]
fn a_damaged_entry_is_named_and_not_passed_over() {
    let damages: [fn(&str) -> String; 2] = [
        |text| text[..text.len() / 2].to_owned(),
        |text| format!("<<<<<<< HEAD\n{text}=======\n>>>>>>> other\n"),
    ];
    for damage in damages {
        let demo = copied("registry-demo");
        said(demo.path(), "keep X20-01-1 --why first", TODAY);
        said(demo.path(), "gone X22-02-7 --died", TODAY);
        said(demo.path(), "move X19-02-1 \"shelf 2\"", TODAY);
        let last = &entries(demo.path())[2];
        let text = fs::read_to_string(last).unwrap();
        fs::write(last, damage(&text)).unwrap();
        let name = format!("journal/{}", last.file_name().unwrap().to_str().unwrap());

        let changes = said(demo.path(), "changes X19-02-1", TODAY);
        let words =
            "No changes of X19-02-1 were made by podbook, as far as the journal can be read";
        assert!(changes.starts_with(words), "{changes}");
        assert!(changes.contains(&name), "{changes}");
        let refused = said(demo.path(), "undo", TODAY);
        assert!(
            refused.contains(&format!("{name} cannot be read")),
            "{refused}"
        );
        assert!(
            refused.contains("take back change 2 instead: podbook undo 2"),
            "{refused}"
        );
        let refused = said(demo.path(), "undo 3", TODAY);
        assert!(
            refused.contains(&format!("{name} cannot be read")),
            "{refused}"
        );
        // Asked for by its number, an earlier change is taken back.
        let undone = said(demo.path(), "undo 2", TODAY);
        assert!(undone.starts_with("Undid change 2"), "{undone}");
    }
}

#[test]
fn a_damaged_entry_that_was_taken_back_holds_up_no_undo() {
    let demo = copied("registry-demo");
    said(demo.path(), "keep X20-01-1 --why first", TODAY);
    said(demo.path(), "gone X22-02-7 --died", TODAY);
    said(demo.path(), "undo", TODAY);
    fs::write(&entries(demo.path())[1], "(change: 2, ").unwrap();
    let refused = said(demo.path(), "undo 2", TODAY);
    let words = "change 2 is undone already, by change 3";
    assert!(refused.contains(words), "{refused}");
    let undone = said(demo.path(), "undo", TODAY);
    assert!(undone.starts_with("Undid change 1"), "{undone}");
}

#[test]
fn a_damaged_entry_whose_undo_was_taken_back_is_named_again() {
    let demo = copied("registry-demo");
    said(demo.path(), "keep X20-01-1 --why first", TODAY);
    said(demo.path(), "gone X22-02-7 --died", TODAY);
    said(demo.path(), "undo", TODAY);
    said(demo.path(), "undo 3", TODAY);
    fs::write(&entries(demo.path())[1], "(change: 2, ").unwrap();
    let refused = said(demo.path(), "undo", TODAY);
    assert!(refused.contains("cannot be read"), "{refused}");
}

#[test]
fn two_changes_of_one_number_are_told_apart_by_their_pages() {
    let (ours, theirs) = (copied("registry-demo"), copied("registry-demo"));
    said(ours.path(), "gone X22-02-7 --died", TODAY);
    said(theirs.path(), "gone X18-01-1 --died", TODAY);
    // What git makes of two clones that changed two pages.
    let entry = &entries(theirs.path())[0];
    let to = ours.path().join("journal").join(entry.file_name().unwrap());
    fs::copy(entry, to).unwrap();
    let page = "crosses/X18-01.ron";
    fs::copy(theirs.path().join(page), ours.path().join(page)).unwrap();

    let refused = said(ours.path(), "undo 1", TODAY);
    assert!(
        refused.contains("podbook gone X22-02-7 --died"),
        "{refused}"
    );
    assert!(
        refused.contains("podbook gone X18-01-1 --died"),
        "{refused}"
    );
    let first = said(ours.path(), "undo", TODAY);
    assert!(first.starts_with("Undid change 1: podbook gone"), "{first}");
    let changes = said(ours.path(), "changes", TODAY);
    assert_eq!(changes.matches("undone").count(), 1, "{changes}");
    let second = said(ours.path(), "undo", TODAY);
    assert!(
        second.starts_with("Undid change 1: podbook gone"),
        "{second}"
    );
    assert_ne!(first.split(". To").next(), second.split(". To").next());
    for (plant, page) in [("X22-02-7", "crosses/X22-02.ron"), ("X18-01-1", page)] {
        let was = Path::new(env!("CARGO_MANIFEST_DIR"))
            .join("registry-demo")
            .join(page);
        let now = fs::read(ours.path().join(page)).unwrap();
        assert_eq!(now, fs::read(was).unwrap(), "{plant}");
    }
    // An undo of one of them is taken back by its own number.
    let again = said(ours.path(), "undo 3", TODAY);
    assert!(
        again.starts_with("Undid change 3, an undo: change 1 stands again"),
        "{again}"
    );
}

#[test]
fn a_page_that_is_away_is_not_called_changed() {
    let demo = copied("registry-demo");
    said(demo.path(), "gone X22-02-7 --died", TODAY);
    let page = demo.path().join("crosses/X22-02.ron");
    let other = demo.path().join("crosses/y.ron");
    fs::rename(&page, &other).unwrap();
    let refused = said(demo.path(), "undo", TODAY);
    assert!(
        refused.contains("crosses/X22-02.ron is not there"),
        "{refused}"
    );
    fs::rename(&other, &page).unwrap();
    let undone = said(demo.path(), "undo", TODAY);
    assert!(undone.starts_with("Undid change 1"), "{undone}");
}

#[test]
fn a_page_with_the_line_ends_of_another_system_gets_its_words_back() {
    for to_windows in [true, false] {
        let demo = copied("registry-demo");
        let page = demo.path().join("crosses/X22-02.ron");
        let unix = fs::read_to_string(&page).unwrap();
        let windows = unix.replace('\n', "\r\n");
        let (before, after) = match to_windows {
            true => (unix, windows),
            false => (windows, unix),
        };
        fs::write(&page, &before).unwrap();
        said(demo.path(), "gone X22-02-7 --died", TODAY);
        let changed = fs::read_to_string(&page).unwrap();
        fs::write(
            &page,
            match to_windows {
                true => changed.replace('\n', "\r\n"),
                false => changed.replace("\r\n", "\n"),
            },
        )
        .unwrap();
        let undone = said(demo.path(), "undo", TODAY);
        assert!(undone.starts_with("Undid change 1"), "{undone}");
        assert_eq!(fs::read_to_string(&page).unwrap(), after);
    }
}

#[test]
fn words_are_kept_as_typed() {
    let demo = copied("registry-demo");
    let (persian, farmer) = (
        "\u{645}\u{6cc}\u{200c}\u{62e}",
        "Ann \u{1f469}\u{200d}\u{1f33e}",
    );
    said(
        demo.path(),
        &format!("gone X22-02-7 --died --why \"{persian}\""),
        TODAY,
    );
    said(
        demo.path(),
        &format!("add Heart1 \"N. ventricosa\" --from \"{farmer}\""),
        TODAY,
    );
    let page = |name: &str| fs::read_to_string(demo.path().join(name)).unwrap();
    assert!(page("crosses/X22-02.ron").contains("cause: \"\u{645}\u{6cc}\\u{200c}\u{62e}\""));
    assert!(page("clones.ron").contains("from: \"Ann \u{1f469}\\u{200d}\u{1f33e}\""));
    // On a screen nothing hides between two letters.
    let shown = said(demo.path(), "show X22-02-7", TODAY);
    assert!(shown.contains("\u{645}\u{6cc}\u{fffd}\u{62e}"), "{shown}");
    let check = said(demo.path(), "check", TODAY);
    assert!(check.starts_with("No faults"), "{check}");
}

#[test]
fn a_change_of_many_rows_is_taken_back_to_the_byte() {
    let demo = copied("registry-demo");
    let page = demo.path().join("crosses/X30-01.ron");
    let row = |n: u32| match n % 2 {
        0 => format!("        (number: \"{n}\", place: \"bed 1\"),\n"),
        _ => format!("        (number: \"{n}\"),\n"),
    };
    let rows: String = (1..3000).map(row).collect();
    let text = format!(
        "(\n    code: \"X30-01\",\n    parents: unknown,\n    seedlings: [\n{rows}    ],\n)\n"
    );
    fs::write(&page, &text).unwrap();
    for line in [
        "move --place \"bed 1\" \"bed 2\"",
        "treat --place \"bed 1\" mites",
    ] {
        said(demo.path(), line, TODAY);
        assert_ne!(fs::read_to_string(&page).unwrap(), text, "{line}");
        let undone = said(demo.path(), "undo", TODAY);
        assert!(undone.starts_with("Undid change"), "{undone}");
        assert_eq!(fs::read_to_string(&page).unwrap(), text, "{line}");
    }
}

/// An undo of one of two changes of one number is that of the change whose pages it gave back, wherever its file stands.
#[test]
fn an_undo_belongs_to_the_change_whose_pages_it_gave_back() {
    for [undone, stands] in [["X22-02-7", "X18-01-1"], ["X18-01-1", "X22-02-7"]] {
        let (ours, theirs) = (copied("registry-demo"), copied("registry-demo"));
        said(ours.path(), &format!("gone {stands} --died"), TODAY);
        said(theirs.path(), &format!("gone {undone} --died"), TODAY);
        said(theirs.path(), "undo", TODAY);
        for entry in entries(theirs.path()) {
            let to = ours.path().join("journal").join(entry.file_name().unwrap());
            fs::copy(entry, to).unwrap();
        }
        let of_ours = said(ours.path(), &format!("changes {stands}"), TODAY);
        assert!(!of_ours.contains("undone"), "{of_ours}");
        let of_theirs = said(ours.path(), &format!("changes {undone}"), TODAY);
        assert!(of_theirs.contains("undone"), "{of_theirs}");
        let taken_back = said(ours.path(), "undo 1", TODAY);
        assert!(
            taken_back.contains(&format!("podbook gone {stands} --died")),
            "{taken_back}"
        );
    }
}

/// A program that keeps folders in step leaves a second file of one change, byte for byte the same.
#[test]
fn a_second_file_of_one_change_is_no_second_change() {
    let demo = copied("registry-demo");
    let page = demo.path().join("crosses/X22-02.ron");
    let before = fs::read_to_string(&page).unwrap();
    said(demo.path(), "keep X22-02-5 --why red", TODAY);
    said(demo.path(), "pot X22-02-3 \"9 cm\"", TODAY);
    let last = &entries(demo.path())[1];
    let name = last.file_name().unwrap().to_str().unwrap();
    let copy = name.replace(".ron", " (conflicted copy).ron");
    fs::copy(last, last.with_file_name(copy)).unwrap();
    for change in [2, 1] {
        let undone = said(demo.path(), "undo", TODAY);
        assert!(
            undone.starts_with(&format!("Undid change {change}")),
            "{undone}"
        );
    }
    assert_eq!(fs::read_to_string(&page).unwrap(), before);
    let none = said(demo.path(), "undo", TODAY);
    assert!(none.contains("there is no change to undo"), "{none}");
}

/// Advice is tried before it is given: what cannot be read may have changed the same page.
#[test]
fn an_undo_that_would_be_refused_is_not_advised() {
    let demo = copied("registry-demo");
    said(demo.path(), "keep X22-02-5 --why red", TODAY);
    said(demo.path(), "pot X22-02-3 \"9 cm\"", TODAY);
    let last = &entries(demo.path())[1];
    let text = fs::read_to_string(last).unwrap();
    fs::write(last, &text[..text.len() / 2]).unwrap();
    let refused = said(demo.path(), "undo", TODAY);
    assert!(
        refused.contains("cannot be read") && !refused.contains("instead"),
        "{refused}"
    );
    for question in ["undo", "undo 1"] {
        let refused = said(demo.path(), question, TODAY);
        assert!(refused.contains("correct the record by hand"), "{refused}");
        assert!(!refused.contains("later changes first"), "{refused}");
    }
}

/// Some systems store `É` as two signs, and give a folder back so: the names look the same.
#[test]
fn a_page_whose_name_is_spelt_otherwise_is_undone() {
    let demo = copied("registry-demo");
    said(
        demo.path(),
        "add-seed \"N. ventricosa x spathulata\" --code \u{c9}t\u{e9}-2",
        TODAY,
    );
    let path = |name: &str| demo.path().join(format!("crosses/{name}.ron"));
    let decomposed = path("E\u{301}te\u{301}-2");
    fs::rename(path("\u{c9}t\u{e9}-2"), &decomposed).unwrap();
    let kept = said(demo.path(), "keep X22-02-5 --why red", TODAY);
    assert!(kept.contains("X22-02-5"), "{kept}");
    said(demo.path(), "undo", TODAY);
    let undone = said(demo.path(), "undo", TODAY);
    assert!(undone.starts_with("Undid change 1"), "{undone}");
    assert!(!decomposed.exists());
    let again = said(demo.path(), "undo 4", TODAY);
    assert!(again.starts_with("Undid change 4"), "{again}");
    assert!(decomposed.exists());
}

/// The latest changes that can be taken back are the same, however little of the journal was read for them: what took a change back
/// comes behind it, also where two changes have one number.
#[test]
fn the_end_of_a_journal_says_what_the_whole_says_of_it() {
    let home = tempfile::tempdir().unwrap();
    fs::create_dir(home.path().join("journal")).unwrap();
    let write = |change: u32, undoes: Option<u32>, page: &str| {
        let of = undoes.unwrap_or(change);
        let (was, now) = (
            format!("{page} {of} before\n"),
            format!("{page} {of} after\n"),
        );
        let (was, now) = if undoes.is_some() {
            (now, was)
        } else {
            (was, now)
        };
        let page = PageChange {
            path: "registry.ron".to_owned(),
            was: Some(was),
            now: Some(now),
        };
        let asked = Asked {
            change,
            on: Day::LAST,
            asked: &format!("change {change}"),
            about: &[],
            undoes,
            merged: None,
            event: None,
        };
        let (path, text) = entry(&asked, &[page]);
        fs::write(home.path().join(path), text).unwrap();
    };
    for change in 1..=300 {
        match change % 10 {
            3..=5 => write(change, Some(change - 2), "a"),
            7 => write(change, Some((change / 2).max(1)), "a"),
            9 => (0..3).for_each(|two| write(change, None, &format!("{two}"))),
            _ => write(change, None, "a"),
        }
    }
    let all = Journal::read(home.path()).entries;
    let whole = standing(&all);
    for count in [1, 5, 30, 31, 60, whole.len(), 1000] {
        let latest = Journal::latest(home.path(), |of| standing(of).len() >= count);
        let (latest_standing, is_short) = (standing(&latest), latest.len() < all.len());
        let count = count.min(whole.len());
        assert_eq!(latest_standing[..count], whole[..count], "{count}");
        assert_eq!(is_short, count <= 60, "{count}: {} read", latest.len());
    }
}
