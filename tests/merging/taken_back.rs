//! What one side takes back goes on the other too, unless a record there names it.

use crate::book::Book;
use crate::others::merge;
use podbook::recording::merging::conflict::Side;
use podbook::recording::says::value::Record;

const SETTINGS: &str = r#"(genus: "Nepenthes", hemisphere: north, registry: "birch", format: 2)"#;
const SPECIES: &str = r#"(species: [(epithet: "mira")])"#;
const CLONES: &str =
    "(\n    clones: [\n        (code: \"L1\", received: \"N. mira\"),\n    ],\n)\n";
const GONE: &str = "(\n    clones: [\n        (code: \"L1\", received: \"N. mira\", fate: died(on: \"2024-02-01\")),\n    ],\n)\n";
const TWO: &str = "(\n    clones: [\n        (code: \"L1\", received: \"N. mira\"),\n        (code: \"M1\", received: \"N. mira\"),\n    ],\n)\n";
const CROSS: &str =
    r#"(code: "X24-01", parents: known(seed: "L1", pollen: "L1"), seedlings: [(number: "1")])"#;
const CLONES_PAGE: &str = "clones.ron";

fn growers() -> [Book; 2] {
    let ours = SETTINGS.replace("birch", "alder");
    let of = |settings: &str, clones: &str| {
        Book::of(&[
            ("registry.ron", settings),
            ("species.ron", SPECIES),
            (CLONES_PAGE, clones),
        ])
    };
    let own = "(\n    clones: [\n        (code: \"M1\", received: \"N. mira\"),\n    ],\n)\n";
    [of(&ours, own), of(SETTINGS, CLONES)]
}

fn codes(book: &Book) -> Vec<String> {
    let page = Record::of_page(&book.pages[CLONES_PAGE]).unwrap();
    let codes = page.records("clones").filter_map(|of| of.text("code"));
    codes.map(str::to_owned).collect()
}

/// A page of theirs says again what it said when it first came: that is what they say now.
#[test]
fn a_change_that_another_grower_took_back_is_taken_back_here() {
    let [mut ours, mut theirs] = growers();
    merge(&mut ours, &theirs, "birch");
    theirs.replace(CLONES_PAGE, false, GONE);
    merge(&mut ours, &theirs, "birch");
    assert!(ours.pages[CLONES_PAGE].contains("died"));
    theirs.undo(1);
    merge(&mut ours, &theirs, "birch");
    assert!(
        !ours.pages[CLONES_PAGE].contains("died"),
        "{:#?}",
        ours.pages
    );
    theirs.replace(CLONES_PAGE, false, TWO);
    merge(&mut ours, &theirs, "birch");
    assert_eq!(codes(&ours), ["M1", "L1", "birch-M1"]);
}

/// A plant that they took back goes here, under whatever code it has; one of ours with its code there stays.
#[test]
fn a_plant_and_a_cross_that_another_grower_took_back_go_here() {
    let [mut ours, mut theirs] = growers();
    theirs.replace(CLONES_PAGE, false, TWO);
    theirs.replace("crosses/X24-01.ron", false, CROSS);
    merge(&mut ours, &theirs, "birch");
    assert_eq!(codes(&ours), ["M1", "L1", "birch-M1"]);
    let both = ours.clone();
    theirs.undo(2);
    theirs.undo(1);
    let merged = merge(&mut ours, &theirs, "birch");
    assert_eq!(codes(&ours), ["M1", "L1"]);
    assert!(!ours.pages.contains_key("crosses/X24-01.ron"));
    assert_eq!(merged.taken_out, ["birch-M1", "X24-01", "X24-01-1"]);
    // What a cross of ours names stays.
    let mut ours = both;
    let cross =
        CROSS
            .replace("X24-01", "Y24-01")
            .replacen("pollen: \"L1\"", "pollen: \"birch-M1\"", 1);
    ours.replace("crosses/Y24-01.ron", false, &cross);
    let merged = merge(&mut ours, &theirs, "birch");
    assert_eq!(codes(&ours), ["M1", "L1", "birch-M1"]);
    assert_eq!(merged.taken_out, ["X24-01", "X24-01-1"]);
    assert_eq!(ours.faults(), 0);
}

/// A founder of ours that they took in and took back stays as it is.
#[test]
fn what_another_grower_took_back_of_ours_stays_here() {
    let [mut ours, mut theirs] = growers();
    merge(&mut theirs, &ours.clone(), "alder");
    merge(&mut ours, &theirs, "birch");
    let was = ours.pages.clone();
    theirs.undo(1);
    let merged = merge(&mut ours, &theirs, "birch");
    assert!(merged.taken_out.is_empty(), "{:?}", merged.taken_out);
    assert_eq!(ours.pages, was);
}

/// A species that came with a plant stays when the plant is taken back, if the other copy has another plant of it.
#[test]
fn a_species_stays_while_a_label_names_it() {
    let [first, _] = growers();
    let species = r#"(species: [(epithet: "mira"), (epithet: "lowii")])"#;
    let with = |code: &str| {
        TWO.replace(
            "\"L1\", received: \"N. mira\"",
            &format!("\"{code}\", received: \"N. lowii\""),
        )
    };
    for (label, stays) in [("L2", true), ("", false)] {
        let [mut a, mut b] = [first.clone(), first.clone()];
        let add = |book: &mut Book, code: &str| {
            let was = book.pages[CLONES_PAGE].clone();
            let row = with(code).lines().nth(2).unwrap().to_owned() + "\n    ],";
            book.replace(CLONES_PAGE, false, &was.replacen("    ],", &row, 1));
        };
        a.replace("species.ron", false, species);
        add(&mut a, "L1");
        b.merge(&a, None, None);
        a.undo(2);
        a.undo(1);
        if stays {
            add(&mut b, label);
        }
        let other = a.clone();
        a.merge(&b, None, None);
        b.merge(&other, None, None);
        assert_eq!(a.says(), b.says());
        assert_eq!(a.pages["species.ron"].contains("lowii"), stays);
        assert_eq!((a.faults(), codes(&a).len()), (0, 1 + usize::from(stays)));
        let again = a.merge(&b, None, Some(Side::Ours));
        assert!(again.changes.is_empty());
    }
}
