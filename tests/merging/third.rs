//! A third copy between two: nothing is there twice, and what one took back stays taken back.

use crate::book::Book;
use podbook::recording::merging::conflict::{Decisions, Side};
use podbook::recording::says::value::Record;
use std::collections::{BTreeMap, BTreeSet};

const SETTINGS: &str = r#"(genus: "Nepenthes", hemisphere: north, registry: "tent", format: 2)"#;
const CLONES: &str =
    "(\n    clones: [\n        (code: \"V1\", received: \"N. mira\"),\n    ],\n)\n";
const CROSS: &str = "(\n    code: \"X20-01\",\n    parents: known(seed: \"V1\", pollen: \"V1\"),\n    seedlings: [\n        (number: \"1\"),\n    ],\n)\n";
const CROSS_PAGE: &str = "crosses/X20-01.ron";

fn three() -> [Book; 3] {
    let first = Book::of(&[
        ("registry.ron", SETTINGS),
        ("clones.ron", CLONES),
        (CROSS_PAGE, CROSS),
    ]);
    [first.clone(), first.clone(), first]
}

/// A new cross, known by its note.
fn cross(book: &mut Book, code: &str, note: &str) {
    let page = format!(
        "(\n    code: \"{code}\",\n    parents: known(seed: \"V1\", pollen: \"V1\"),\n    note: \"{note}\",\n)\n"
    );
    book.replace(&format!("crosses/{code}.ron"), false, &page);
}

/// Codes of the crosses by their notes.
fn crosses(book: &Book) -> BTreeMap<String, String> {
    let pages = book.pages.values().filter_map(|text| Record::of_page(text));
    let noted = pages.filter_map(|page| {
        let note = page.text("note")?.to_owned();
        Some((note, page.text("code")?.to_owned()))
    });
    let all: Vec<(String, String)> = noted.collect();
    let by_note: BTreeMap<String, String> = all.iter().cloned().collect();
    assert_eq!(all.len(), by_note.len(), "one is there twice: {all:?}");
    by_note
}

fn merge(books: &mut [Book; 3], here: usize, there: usize) {
    let other = books[there].clone();
    let merged = books[here].merge(&other, None, None);
    assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
}

/// What one took back goes on the other too, although a third copy, merged in between, has the page as it was before.
#[test]
fn what_was_taken_back_stays_so_after_a_third_copy_was_merged() {
    let marked = CROSS.replace("(number: \"1\")", "(number: \"1\", nickname: \"Bo\")");
    for by_way_of_b in [false, true] {
        let mut books = three();
        books[2].replace(CROSS_PAGE, false, &marked);
        merge(&mut books, 1, 2);
        books[2].undo(1);
        cross(&mut books[0], "X26-01", "other page");
        if by_way_of_b {
            merge(&mut books, 2, 0);
            merge(&mut books, 0, 1);
            merge(&mut books, 0, 2);
        } else {
            merge(&mut books, 2, 0);
        }
        for (here, there) in [(1, 2), (2, 1), (0, 2), (1, 0), (2, 0)] {
            merge(&mut books, here, there);
        }
        for book in &books {
            assert!(!book.pages[CROSS_PAGE].contains("Bo"), "{by_way_of_b}");
            assert_eq!(book.says(), books[0].says());
        }
    }
}

/// One cross that two merges gave two codes is one cross.
#[test]
fn what_got_two_codes_on_two_copies_is_one() {
    let mut books = three();
    cross(&mut books[0], "X26-01", "a first");
    merge(&mut books, 1, 0);
    cross(&mut books[2], "X26-01", "of c");
    merge(&mut books, 1, 2);
    cross(&mut books[0], "X26-02", "a second");
    let before = books.clone();
    merge(&mut books, 2, 0);
    merge(&mut books, 0, 2);
    for (here, there) in [(0, 1), (1, 0), (2, 1), (0, 2), (1, 2)] {
        merge(&mut books, here, there);
    }
    let says = crosses(&books[0]);
    assert_eq!(says.len(), 3);
    assert!(books.iter().all(|book| crosses(book) == says));
    // The same without the third: its code is taken here by another cross that is new.
    for [here, there] in [[0, 1], [1, 0]] {
        let mut books = before.clone();
        merge(&mut books, here, there);
        merge(&mut books, there, here);
        for (here, there) in [(2, 1), (0, 2), (1, 2)] {
            merge(&mut books, here, there);
        }
        assert!(
            books.iter().all(|book| crosses(book) == says),
            "{:?}",
            books.each_ref().map(crosses)
        );
    }
}

fn clashes(here: &Book, there: &Book) -> usize {
    let merged = here.merging(there, None, &Decisions::default(), &BTreeSet::new());
    merged.unwrap().clashes.len()
}

/// Two copies that decided a conflict differently are asked again, and one decision more settles it for both.
#[test]
fn two_decisions_that_contradict_each_other_are_asked_again() {
    let why = |why: &str| {
        CROSS.replace(
            "(number: \"1\")",
            &format!("(number: \"1\", kept: (on: \"2026-01\", why: \"{why}\"))"),
        )
    };
    for more in [false, true] {
        for decided in [Side::Ours, Side::Theirs] {
            let [mut a, mut b, _] = three();
            a.replace(CROSS_PAGE, false, &why("a"));
            b.replace(CROSS_PAGE, false, &why("b"));
            if more {
                // The page changes elsewhere too.
                let goal = b.pages[CROSS_PAGE]
                    .replace("    seedlings", "    goal: \"wide\",\n    seedlings");
                b.replace(CROSS_PAGE, false, &goal);
            }
            let was = a.clone();
            a.merge(&b, None, Some(decided));
            b.merge(&was, None, Some(decided));
            assert_eq!(
                [clashes(&a, &b), clashes(&b, &a)],
                [1, 1],
                "{more} {decided:?}"
            );
            b.merge(&a, None, Some(Side::Ours));
            let kept = b.pages[CROSS_PAGE].clone();
            assert_eq!(
                [clashes(&a, &b), clashes(&b, &a)],
                [0, 0],
                "{more} {decided:?}"
            );
            a.merge(&b, None, None);
            assert_eq!(a.says(), b.says());
            assert_eq!(b.pages[CROSS_PAGE], kept);
        }
    }
}
