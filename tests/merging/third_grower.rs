//! Two growers who both took in a third one's registry: what is that one's is so by whatever way it came.

use crate::book::{Book, sources, today};
use crate::others::{merge, merging};
use podbook::analysis::list::handed_on;
use podbook::analysis::promised::{Promised, promised};
use podbook::context::Context;
use podbook::recording::says::value::Record;
use podbook::registry::build;

const CLONES_PAGE: &str = "clones.ron";

fn house(name: &str, clones: &str) -> Book {
    let settings = format!(
        r#"(genus: "Nepenthes", hemisphere: north, registry: "{name}", format: 2, traits: [(code: "span", name: "span", reads: length(cm))])"#
    );
    Book::of(&[
        ("registry.ron", settings.as_str()),
        ("species.ron", r#"(species: [(epithet: "mira")])"#),
        (CLONES_PAGE, clones),
    ])
}

/// Three growers, of whom the first has one plant.
fn three(plant: &str) -> [Book; 3] {
    let clones = format!(
        "(\n    clones: [\n        (code: \"V1\", received: \"N. mira\"{plant}),\n    ],\n)\n"
    );
    [
        house("aa", &clones),
        house("bb", "(clones: [])"),
        house("cc", "(clones: [])"),
    ]
}

fn plant(book: &Book) -> Record {
    let page = Record::of_page(&book.pages[CLONES_PAGE]).unwrap();
    page.record("clones", 0).unwrap().clone()
}

/// Each has its own day of taking the plant in, and its place is the first grower's.
#[test]
fn what_came_by_two_ways_says_the_same() {
    for is_direct_first in [true, false] {
        let [a, mut b, mut c] = three(", place: \"bench\", fate: died(on: \"2024\")");
        merge(&mut b, &a, "aa");
        let earlier = b.pages[CLONES_PAGE].replace("on: \"2026-06-01\"", "on: \"2024-02-01\"");
        assert_ne!(earlier, b.pages[CLONES_PAGE]);
        b.replace(CLONES_PAGE, false, &earlier);
        let ways: [(&Book, &str); 2] = match is_direct_first {
            true => [(&a, "aa"), (&b, "bb")],
            false => [(&b, "bb"), (&a, "aa")],
        };
        for (there, by) in ways {
            let merged = merging(&c, there, by, None).unwrap();
            assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
            c.write(&merged.changes, None, Some(&merged.memory));
            let says = plant(&c);
            assert_eq!(says.text("place"), Some("aa, bench"));
            assert_eq!(
                says.get("told_by").unwrap().line(),
                r#"(registry: "aa", code: "V1", on: "2026-06-01")"#
            );
        }
    }
}

/// That a plant never stood here contradicts nothing that became of it there.
#[test]
fn with_another_grower_gives_way_to_sold() {
    for is_direct_first in [true, false] {
        let [a, b, mut c] = three(", fate: sold(on: \"2024-01-05\", to: \"b\", said: \"N. mira\")");
        let came = a.pages[CLONES_PAGE].replace(
            "fate: sold(on: \"2024-01-05\", to: \"b\", said: \"N. mira\")",
            "told_by: (registry: \"aa\", code: \"V1\")",
        );
        let mut b = b;
        b.replace(CLONES_PAGE, false, &came);
        let ways: [(&Book, &str); 2] = match is_direct_first {
            true => [(&a, "aa"), (&b, "bb")],
            false => [(&b, "bb"), (&a, "aa")],
        };
        for (there, by) in ways.iter().chain(&ways) {
            let merged = merging(&c, there, by, None).unwrap();
            assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
            c.write(&merged.changes, None, Some(&merged.memory));
        }
        assert_eq!(plant(&c).text("fate"), Some("sold(on: \"2024-01-05\")"));
    }
}

/// What another grower sold is none of one's own sales, and no slip is written for it.
#[test]
fn what_another_grower_sold_was_not_sold_here() {
    let fate = "sold(on: \"2024-01-05\", to: \"a visitor\", price: \"40\", label: \"V1\", said: \"N. mira\")";
    let piece = format!("(code: \"b\", made: cutting, fate: {fate})");
    for what in [
        format!(", fate: {fate}"),
        format!(", ramets: [(code: \"a\", made: original), {piece}]"),
        format!(", came_back: [(left: {fate}, on: \"2024-02\")]"),
    ] {
        let [a, mut b, _] = three(&what);
        merge(&mut b, &a, "aa");
        let page = &b.pages[CLONES_PAGE];
        assert!(page.contains("sold(on: \"2024-01-05\")"), "{page}");
        assert!(!page.contains("visitor") && !page.contains("40"), "{page}");
        let pages = sources(&b.pages);
        let (registry, _) = build(&pages);
        assert_eq!(handed_on(&registry, today()).len(), 0);
        assert_eq!(
            promised(&Context::of(&registry, today())),
            Promised::default()
        );
    }
}

/// A reading of one's own that comes back is one's own.
#[test]
fn a_reading_that_comes_back_is_none_of_theirs() {
    let [mut a, mut b, _] = three("");
    let read = a.pages[CLONES_PAGE].replace(
        "    ],\n)",
        "    ],\n    sittings: [\n        (on: \"2025-05-01\", columns: [\"span cm\"], rows: [[\"V1\", \"12\"]]),\n    ],\n)",
    );
    a.replace(CLONES_PAGE, false, &read);
    merge(&mut b, &a, "aa");
    let merged = merge(&mut a, &b, "bb");
    assert_eq!(merged.stayed, []);
    // Another reading is theirs, and is counted.
    let more = b.pages[CLONES_PAGE].replace("[\"V1\", \"12\"]", "[\"V1\", \"13\"]");
    b.replace(CLONES_PAGE, false, &more);
    let merged = merge(&mut a, &b, "bb");
    assert_eq!(merged.stayed[0].what, [(1, "reading without a reader")]);
}
