//! Single cases, each by hand.

use crate::book::Book;
use podbook::recording::merging::conflict::{Decisions, Side};
use podbook::recording::merging::renaming::{NewCodes, renamed};
use podbook::recording::merging::rewrite::rewritten;
use podbook::recording::page::FieldChange;
use podbook::recording::says::value::{Record, Value};
use std::collections::BTreeSet;

const SETTINGS: &str = r#"(genus: "Nepenthes", hemisphere: north, registry: "tent", format: 2)"#;
const CLONES: &str = r#"// Founders.
(
    clones: [
        // The first.
        (code: "Ven1", received: "N. ventricosa", ramets: [(code: "a", made: original)]),
        (code: "Spa1", received: "N. spathulata"),
    ],
)
"#;
const CROSS: &str = r#"(
    code: "X20-01",
    parents: known(seed: "Ven1", pollen: "Spa1"),
    sowings: [(code: "S1", on: "2020-09-01", seeds: 40)],
    seedlings: [
        (number: "1", sowing: "S1"), // tag broken
        (number: "2", sowing: "S1"),
    ],
    sittings: [
        (on: "2022-05-01", columns: ["span cm"], rows: [["1", "8.0"], ["2", "9.5"]]),
    ],
)
"#;

const CLONES_PAGE: &str = "clones.ron";
const CROSS_PAGE: &str = "crosses/X20-01.ron";

fn tent() -> Book {
    Book::of(&[
        ("registry.ron", SETTINGS),
        (CLONES_PAGE, CLONES),
        (CROSS_PAGE, CROSS),
    ])
}

/// Two copies after one change each by hand, with what both came from.
fn changed(path: &str, ours: (&str, &str), theirs: (&str, &str)) -> [Book; 3] {
    let first = tent();
    let change = |(from, to): (&str, &str)| {
        let mut book = first.clone();
        assert!(book.pages[path].contains(from), "{from}");
        let text = book.pages[path].replacen(from, to, 1);
        book.replace(path, true, &text);
        book
    };
    [change(ours), change(theirs), first.clone()]
}

/// Remarks and layout of our page stay, and those that find no place are said.
#[test]
fn every_other_byte_stays() {
    let [mut ours, theirs, first] = changed(
        CROSS_PAGE,
        (
            "(number: \"1\", sowing: \"S1\")",
            "(number: \"1\", sowing: \"S1\", note: \"pale\")",
        ),
        (
            "(number: \"2\", sowing: \"S1\"),",
            "(number: \"2\", sowing: \"S1\", place: \"shelf 2\"), // moved in May",
        ),
    );
    let merged = ours.merge(&theirs, Some(&first), None);
    let expected = CROSS
        .replace(
            "(number: \"1\", sowing: \"S1\")",
            "(number: \"1\", sowing: \"S1\", note: \"pale\")",
        )
        .replace(
            "(number: \"2\", sowing: \"S1\")",
            "(number: \"2\", sowing: \"S1\", place: \"shelf 2\")",
        );
    assert_eq!(ours.pages[CROSS_PAGE], expected);
    assert_eq!(
        merged.remarks,
        [(CROSS_PAGE.to_owned(), vec!["// moved in May".to_owned()])]
    );
}

/// A page that only they changed comes whole, remarks and all.
#[test]
fn a_page_that_only_they_changed_comes_whole() {
    let [mut ours, theirs, first] = changed(
        CLONES_PAGE,
        ("// Founders.", "// Founders."),
        ("// The first.", "// The very first."),
    );
    ours.merge(&theirs, Some(&first), None);
    assert_eq!(ours.pages, theirs.pages);
}

/// One reading corrected on both sides, and one on each.
#[test]
fn readings_are_merged_cell_by_cell() {
    let [mut ours, theirs, first] = changed(
        CROSS_PAGE,
        (
            "columns: [\"span cm\"], rows: [[\"1\", \"8.0\"], [\"2\", \"9.5\"]]",
            "columns: [\"span cm\"], rows: [[\"1\", \"8.1\"], [\"2\", \"9.5\"], [\"3\", \"4.0\"]]",
        ),
        (
            "columns: [\"span cm\"], rows: [[\"1\", \"8.0\"], [\"2\", \"9.5\"]]",
            "columns: [\"span cm\", \"rim\"], rows: [[\"1\", \"8.3\", \"red\"], [\"2\", \"9.6\", \"\"]]",
        ),
    );
    let open = ours
        .merging(
            &theirs,
            Some(&first),
            &Decisions::default(),
            &BTreeSet::new(),
        )
        .unwrap();
    let abouts: Vec<&str> = open
        .clashes
        .iter()
        .map(|clash| clash.about.as_str())
        .collect();
    assert_eq!(abouts, ["X20-01, sittings 2022-05-01, plant 1, span cm"]);
    assert_eq!(
        open.clashes[0].here,
        (Some("\"8.1\"".to_owned()), format!("{CROSS_PAGE}:10"))
    );
    assert_eq!(
        open.clashes[0].there,
        (Some("\"8.3\"".to_owned()), format!("{CROSS_PAGE}:10"))
    );
    ours.merge(&theirs, Some(&first), Some(Side::Theirs));
    let record = Record::of_page(&ours.pages[CROSS_PAGE]).unwrap();
    let sitting = record.records("sittings").next().unwrap();
    assert_eq!(
        sitting.get("columns").unwrap().line(),
        "[\"span cm\", \"rim\"]"
    );
    assert_eq!(
        sitting.get("rows").unwrap().line(),
        "[[\"1\", \"8.3\", \"red\"], [\"2\", \"9.6\", \"\"], [\"3\", \"4.0\", \"\"]]"
    );
}

/// Siblings, pieces, sowings and crosses that both sides added are two each, unless the grower says otherwise.
#[test]
fn what_both_added_is_two() {
    let ours = (
        "(number: \"2\", sowing: \"S1\"),",
        "(number: \"2\", sowing: \"S1\"),\n(number: \"3\", sowing: \"S1\", note: \"a\"),",
    );
    let theirs = (
        "(number: \"2\", sowing: \"S1\"),",
        "(number: \"2\", sowing: \"S1\"),\n(number: \"3\", sowing: \"S1\", place: \"b\"),",
    );
    let [a, b, first] = changed(CROSS_PAGE, ours, theirs);
    let mut book = a.clone();
    book.merge(&b, Some(&first), None);
    let record = Record::of_page(&book.pages[CROSS_PAGE]).unwrap();
    let numbers: Vec<&str> = record
        .records("seedlings")
        .filter_map(|of| of.text("number"))
        .collect();
    assert_eq!(numbers, ["1", "2", "3", "4"]);
    // One, if it is said: then both fields are its own.
    let same = BTreeSet::from(["X20-01-3".to_owned()]);
    let merged = a
        .merging(&b, Some(&first), &Decisions::default(), &same)
        .unwrap();
    let page = Record::of_page(merged.changes[0].now.as_ref().unwrap()).unwrap();
    let third = page.records("seedlings").nth(2).unwrap();
    assert_eq!(
        (third.text("note"), third.text("place")),
        (Some("a"), Some("b"))
    );
    // Pieces of one plant, and what flowers on them.
    let a_piece = (
        "ramets: [(code: \"a\", made: original)]",
        "ramets: [(code: \"a\", made: original), (code: \"b\", from: \"a\", cut: \"2024-03\")], flowerings: [(code: \"24a\", opened: \"2024-05\", ramet: \"b\")]",
    );
    let b_piece = (
        "ramets: [(code: \"a\", made: original)]",
        "ramets: [(code: \"a\", made: original), (code: \"b\", from: \"a\", cut: \"2024-08\"), (code: \"c\", from: \"b\")]",
    );
    let [mut a, b, first] = changed(CLONES_PAGE, a_piece, b_piece);
    let merged = a.merge(&b, Some(&first), None);
    assert_eq!(
        merged.apart.renamed,
        [("Ven1-b".to_owned(), "Ven1-d".to_owned())]
    );
    let record = Record::of_page(&a.pages[CLONES_PAGE]).unwrap();
    let ramets = record
        .records("clones")
        .next()
        .unwrap()
        .get("ramets")
        .unwrap()
        .line();
    for piece in [
        "(code: \"a\", made: original)",
        "cut: \"2024-03\"",
        "cut: \"2024-08\"",
    ] {
        assert_eq!(ramets.matches(piece).count(), 1, "{ramets}");
    }
    // The cutting of theirs is still one of their own b.
    let parent = if merged.apart.side == Some(Side::Theirs) {
        "d"
    } else {
        "b"
    };
    assert!(
        ramets.contains(&format!("(code: \"c\", from: \"{parent}\")")),
        "{ramets}"
    );
}

/// A plant that one side took out and the other changed is a conflict; one that the other left alone goes.
#[test]
fn what_was_taken_out_is_not_brought_back() {
    let gone = (
        "        (code: \"Spa1\", received: \"N. spathulata\"),\n",
        "",
    );
    let [mut ours, theirs, first] =
        changed(CLONES_PAGE, ("// Founders.", "// All founders."), gone);
    let merged = ours.merge(&theirs, Some(&first), None);
    assert_eq!(merged.taken_out, ["Spa1"]);
    assert!(!ours.pages[CLONES_PAGE].contains("Spa1"));
    let [mut ours, theirs, first] = changed(
        CLONES_PAGE,
        ("(code: \"Spa1\", ", "(code: \"Spa1\", note: \"flowers\", "),
        gone,
    );
    let merged = ours.merge(&theirs, Some(&first), Some(Side::Ours));
    assert_eq!(merged.clashes[0].about, "Spa1");
    assert!(ours.pages[CLONES_PAGE].contains("flowers"));
}

/// Without a journal and without the registry as it was, a field of one side is taken and what differs is asked.
#[test]
fn where_nothing_is_known_only_what_differs_is_asked() {
    let [ours, theirs, _] = changed(
        CROSS_PAGE,
        (
            "(number: \"1\", sowing: \"S1\")",
            "(number: \"1\", sowing: \"S1\", note: \"pale\", place: \"a\")",
        ),
        (
            "(number: \"1\", sowing: \"S1\")",
            "(number: \"1\", sowing: \"S1\", note: \"dark\", nickname: \"Bo\")",
        ),
    );
    let merged = ours
        .merging(&theirs, None, &Decisions::default(), &BTreeSet::new())
        .unwrap();
    let abouts: Vec<&str> = merged
        .clashes
        .iter()
        .map(|clash| clash.about.as_str())
        .collect();
    assert_eq!(abouts, ["X20-01-1, note"]);
}

/// A decision on one plant or one field comes before one on all.
#[test]
fn the_longest_decision_counts() {
    let decisions = Decisions(vec![
        (String::new(), Side::Ours),
        ("X20-01-1".to_owned(), Side::Theirs),
        ("X20-01-1, note".to_owned(), Side::Ours),
    ]);
    assert_eq!(decisions.on("X20-01-1, place"), Some(Side::Theirs));
    assert_eq!(decisions.on("X20-01-1, note"), Some(Side::Ours));
    assert_eq!(decisions.on("X20-01-12, place"), Some(Side::Ours));
    assert_eq!(Decisions::default().on("Ven1"), None);
    // A reading is one of its plant.
    let of_cross = "X20-01, sittings 2022-05-01 shelf 1, plant 1, span cm";
    assert_eq!(decisions.on(of_cross), Some(Side::Theirs));
    let of_other = "X20-01, sittings 2022-05-01 shelf 1, plant 12, span cm";
    assert_eq!(decisions.on(of_other), Some(Side::Ours));
    let decisions = Decisions(vec![("Ven1, span cm".to_owned(), Side::Theirs)]);
    let of_founder = "clones.ron, sittings 2022-05-01, plant Ven1, span cm";
    assert_eq!(decisions.on(of_founder), Some(Side::Theirs));
    assert_eq!(decisions.idle([of_founder].into_iter()), None);
}

/// Every place in which a page names a plant, a cross, a part or an envelope, by a page that has them all.
#[test]
fn codes_are_changed_wherever_they_are_named() {
    let page = r#"(code: "X1", parents: one_of_pairs([(seed: "V1", pollen: "V2-b"), (seed: "X2-3", pollen: "?")]), from: "V1",
        pollinations: [(zone: "A", plant: "V1-b", pollen: "E1"), (zone: "B", same_flowers: "X2.A")],
        pods: [(code: "P1", zone: "A")], seed_lots: [(code: "L1", pod: "P1")],
        sowings: [(code: "S1", lot: "L1", pod: "P1", pricked_out: [(on: "2020", moved: 3, to: "T1")])],
        community_pots: [(code: "T1", sowing: "S1", one_of: ["P1", "X2.P1"], muddled: [(on: "2021", with: ["X2.T1"])])],
        seedlings: [(number: "1", community_pot: "T1", ramets: [(code: "a"), (code: "b", from: "a")],
            flowerings: [(code: "a", ramet: "b")], note: "V1 and P1")],
        sittings: [(on: "2022", columns: ["span cm"], rows: [["1", "2"], ["X2-3", "1"]])])"#;
    let mut codes = NewCodes::default();
    for (was, now) in [
        ("V1", "W1"),
        ("V2-b", "V2-c"),
        ("X1", "Y1"),
        ("X1.A", "Y1.C"),
        ("X1.P1", "Y1.P7"),
        ("X1.L1", "Y1.L7"),
        ("X1.S1", "Y1.S7"),
        ("X1.T1", "Y1.T7"),
        ("X1-1", "Y1-7"),
        ("X1-1-b", "Y1-7-d"),
        ("X2", "Z2"),
    ] {
        codes.plants.rename(was, now.to_owned());
    }
    codes.pollen.insert("E1".to_owned(), "E7".to_owned());
    codes.traits.insert("span".to_owned(), "width".to_owned());
    let expected = r#"(code: "Y1", parents: one_of_pairs([(seed: "W1", pollen: "V2-c"), (seed: "Z2-3", pollen: "?")]), from: "V1",
        pollinations: [(zone: "C", plant: "W1-b", pollen: "E7"), (zone: "B", same_flowers: "Z2.A")],
        pods: [(code: "P7", zone: "C")], seed_lots: [(code: "L7", pod: "P7")],
        sowings: [(code: "S7", lot: "L7", pod: "P7", pricked_out: [(on: "2020", moved: 3, to: "T7")])],
        community_pots: [(code: "T7", sowing: "S7", one_of: ["P7", "Z2.P1"], muddled: [(on: "2021", with: ["Z2.T1"])])],
        seedlings: [(number: "7", community_pot: "T7", ramets: [(code: "a"), (code: "d", from: "a")],
            flowerings: [(code: "a", ramet: "d")], note: "V1 and P1")],
        sittings: [(on: "2022", columns: ["width cm"], rows: [["7", "2"], ["Z2-3", "1"]])])"#;
    assert_eq!(renamed(page, &codes).unwrap(), expected);
    let pollen = r#"(lots: [(code: "E1", from: mixed(["V1", "V2-b"]), note: "of V1"), (code: "E2", from: plant("X1-1-b"))])"#;
    let expected = r#"(lots: [(code: "E7", from: mixed(["W1", "V2-c"]), note: "of V1"), (code: "E2", from: plant("Y1-7-d"))])"#;
    assert_eq!(renamed(pollen, &codes).unwrap(), expected);
}

/// A field of a page is set once although the page has changed by commands on both sides since.
#[test]
fn copies_with_a_journal_need_nothing_else() {
    let first = tent();
    let [mut a, mut b] = [first.clone(), first];
    let set = |value: &str| {
        vec![(
            "1".to_owned(),
            vec![FieldChange::Set("note", format!("\"{value}\""))],
        )]
    };
    a.page(CROSS_PAGE, false, |page| {
        page.change("seedlings", "number", &set("a")).unwrap()
    });
    b.page(CROSS_PAGE, false, |page| {
        page.set("goal", "\"wide\"").unwrap()
    });
    let merged = a.merge(&b, None, None);
    assert!(merged.clashes.is_empty());
    assert!(a.pages[CROSS_PAGE].contains("wide") && a.pages[CROSS_PAGE].contains("note: \"a\""));
}

/// A first move writes down the plant itself on either side: it is one plant, and where it stands is a conflict.
#[test]
fn the_plant_itself_is_never_two() {
    let spa = "(code: \"Spa1\", received: \"N. spathulata\"";
    let at =
        |place: &str| format!("{spa}, ramets: [(code: \"a\", made: original, place: \"{place}\")]");
    let [mut ours, theirs, first] =
        changed(CLONES_PAGE, (spa, &at("shelf A")), (spa, &at("shelf B")));
    let merged = ours.merge(&theirs, Some(&first), Some(Side::Theirs));
    assert_eq!(merged.apart.renamed, []);
    assert_eq!(merged.clashes.len(), 1);
    assert_eq!(merged.clashes[0].about, "Spa1-a, place");
    assert_eq!(ours.pages, theirs.pages);
}

/// Seedlings that left a pot are summed over both copies: what both wrote is one, what one wrote is added.
#[test]
fn seedlings_that_left_a_pot_come_together() {
    let sowings = "sowings: [(code: \"S1\", on: \"2020-09-01\", seeds: 40)],";
    let pot = |gone: &str| {
        format!("{sowings} community_pots: [(code: \"T1\", sowing: \"S1\", gone: [{gone}])],")
    };
    let sold = "(count: 5, fate: sold(on: \"2021-05-01\"))";
    let died = "(count: 2, fate: died(on: \"2021-06-01\"))";
    let with = |gone: &str| CROSS.replace(sowings, &pot(gone));
    let mut first = tent();
    first.replace(CROSS_PAGE, true, &with(""));
    let [mut ours, mut theirs] = [first.clone(), first.clone()];
    ours.replace(CROSS_PAGE, true, &with(sold));
    theirs.replace(CROSS_PAGE, true, &with(&format!("{sold}, {died}")));
    let merged = ours.merge(&theirs, Some(&first), None);
    assert!(merged.clashes.is_empty());
    assert_eq!(ours.pages[CROSS_PAGE].matches(sold).count(), 1);
    assert_eq!(ours.pages[CROSS_PAGE].matches(died).count(), 1);
}

/// What is new in a list that holds only an example stands behind the example, inside the brackets.
#[test]
fn an_example_stays_in_its_list() {
    let example = "(\n    clones: [\n        (code: \"Ven1\", received: \"N. ventricosa\"),\n    ],\n    sittings: [\n        // (on: \"2023\", columns: [\"note\"], rows: [[\"Ven1\", \"an example\"]]),\n    ],\n)\n";
    let new =
        "        (on: \"2024\", columns: [\"note\"], rows: [[\"Ven1\", \"x\"]]),\n    ],\n)\n";
    let expected = example.replace("    ],\n)\n", new);
    let wanted = Record::of_page(&expected).unwrap();
    assert_eq!(rewritten(example, &wanted).unwrap(), expected);
}

/// Two spellings of one day are neither a conflict nor two entries, wherever the date stands; the day itself may be one.
#[test]
fn two_spellings_of_a_day_are_one() {
    let plain = "(number: \"2\", sowing: \"S1\")";
    let with = |more: &str| format!("(number: \"2\", sowing: \"S1\", {more})");
    for (one, other, wanted) in [
        (
            "fate: died(on: \"1 May 2025\", cause: \"rot\")",
            "fate: died(on: \"2025-05-01\", cause: \"rot\")",
            true,
        ),
        (
            "kept: (on: \"May 2025\", why: \"red\")",
            "kept: (on: \"2025-05\", why: \"red\")",
            true,
        ),
        (
            "pots: [(on: \"1 May 2025\", pot: \"7 cm\")]",
            "pots: [(on: \"2025-05-01\", pot: \"7 cm\")]",
            true,
        ),
        (
            "flowerings: [(opened: \"1 May 2025\", sex: male)]",
            "flowerings: [(opened: \"2025-05-01\", sex: male)]",
            true,
        ),
        (
            "fate: died(on: \"2 May 2025\", cause: \"rot\")",
            "fate: died(on: \"2025-05-01\", cause: \"rot\")",
            false,
        ),
    ] {
        let [ours, theirs] = [one, other].map(with);
        let [ours, theirs, first] = changed(CROSS_PAGE, (plain, &ours), (plain, &theirs));
        let merged = |ours: &Book, theirs: &Book| {
            let mut ours = ours.clone();
            ours.merge(theirs, Some(&first), None);
            let page = Record::of_page(&ours.pages[CROSS_PAGE]).unwrap();
            let seedling = page.records("seedlings").nth(1).unwrap().clone();
            Value::Record(seedling).canonical()
        };
        let open = ours
            .merging(
                &theirs,
                Some(&first),
                &Decisions::default(),
                &BTreeSet::new(),
            )
            .unwrap();
        assert_eq!(open.clashes.is_empty(), wanted, "{one}: {:?}", open.clashes);
        if wanted {
            assert_eq!(merged(&ours, &theirs), merged(&theirs, &ours));
            let entries = merged(&ours, &theirs).matches("2025").count();
            assert_eq!(entries, 1, "{}", merged(&ours, &theirs));
        }
    }
}

/// A day that one side only wrote in other words gives way to what the other changed.
#[test]
fn another_spelling_is_no_change() {
    let [ours, theirs, first] = changed(
        CROSS_PAGE,
        ("on: \"2020-09-01\"", "on: \"1 Sep 2020\""),
        ("on: \"2020-09-01\"", "on: \"2020-09-02\""),
    );
    let mut ours = ours;
    ours.merge(&theirs, Some(&first), None);
    assert!(ours.pages[CROSS_PAGE].contains("2020-09-02"));
}
