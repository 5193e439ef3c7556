//! `podbook find`.

use crate::bench_top::BenchTop;
use crate::demo::{demo, demo_screen};
use insta::assert_snapshot;
use podbook::analysis::find::{excerpt, folded};
use serde_json::Value;

fn hits(top: &BenchTop, words: &[&str]) -> Vec<(String, String, String)> {
    let run = top.run(&[&["find", "--json"], words].concat());
    let report: Value = serde_json::from_str(&run.stdout).expect("JSON");
    let text = |hit: &Value, name: &str| hit[name].as_str().expect("a text").to_owned();
    let hits = report["hits"].as_array().expect("hits");
    hits.iter()
        .map(|hit| (text(hit, "code"), text(hit, "field"), text(hit, "around")))
        .collect()
}

#[test]
fn a_species_in_the_demo() {
    assert_snapshot!(demo_screen(80, "find ventricosa"));
}

#[test]
fn two_words_in_one_record() {
    assert_snapshot!(demo("find WINDOW one"));
}

#[test]
fn nothing_found_names_the_nearest_codes() {
    assert_snapshot!(demo("find X22-2-5"));
}

#[test]
fn no_word_is_refused() {
    let run = BenchTop::sound().run(&["find", " "]);
    assert_eq!(run.exit, Some(2), "{run}");
}

/// One word in every field that can be searched, each in a record of its own.
fn everywhere() -> BenchTop {
    BenchTop::with([
        ("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)"),
        (
            "clones.ron",
            r#"(clones: [
                (code: "WORD1", received: "N. ventricosa"),
                (code: "A2", received: "N. ventricosa \"word\""),
                (code: "A3", received: "N. ventricosa", nickname: "the word"),
                (code: "A4", received: "N. ventricosa", from: "a word"),
                (code: "A5", received: "N. ventricosa", note: "Wörd of mouth"),
                (code: "A6", received: "N. ventricosa", kept: (why: "for a word")),
                (code: "A7", received: "N. ventricosa", pots: [(on: "2020", pot: "7 cm", place: "word shelf")]),
                (code: "A8", received: "N. ventricosa", fate: given(on: "2021", label: "a word tag")),
                (code: "A9", received: "N. ventricosa", fate: given(on: "2021", to: "word")),
                (code: "B1", received: "N. spathulata", ramets: [(code: "a", place: "word"), (code: "b")]),
                (code: "B2", received: "N. spathulata", flowerings: [(note: "word")]),
                (code: "B3", received: "N. spathulata", identified: [(name: "N. truncata", note: "word")]),
                (code: "B4", received: "N. spathulata", cultivar: (epithet: "Word Smith")),
            ])"#,
        ),
        (
            "pollen.ron",
            r#"(lots: [(code: "E1", from: plant("B1"), note: "word")])"#,
        ),
        (
            "crosses/X24-01.ron",
            r#"(code: "X24-01", parents: known(seed: "A2", pollen: "B1"), goal: "a word of it",
                pollinations: [(zone: "A", on: ["2024-02-01"], note: "word")],
                pods: [(code: "P1", note: "word")],
                seed_lots: [(code: "L1", stored: "word box")],
                sowings: [(code: "S1", medium: "word moss")],
                community_pots: [(code: "T1", place: "word")],
                seedlings: [(number: "1", place: "word"), (number: "2", fate: died(on: "2025", cause: "word"))],
                sittings: [(on: "2025-05-01", light: "word", columns: ["note"], rows: [["1", "x"]])])"#,
        ),
    ])
}

#[test]
fn every_field_is_searched_codes_first_then_names() {
    let found = hits(&everywhere(), &["word"]);
    let codes: Vec<&str> = found.iter().map(|(code, ..)| code.as_str()).collect();
    assert_eq!(
        codes,
        [
            "WORD1",
            "A2",
            "A3",
            "A8",
            "B4",
            "A4",
            "A5",
            "A6",
            "A7",
            "A9",
            "B1-a",
            "B2",
            "B3",
            "E1",
            "X24-01",
            "X24-01 2025-05-01",
            "X24-01-1",
            "X24-01-2",
            "X24-01.A",
            "X24-01.L1",
            "X24-01.P1",
            "X24-01.S1",
            "X24-01.T1",
        ]
    );
    let around = |code: &str| &found.iter().find(|(of, ..)| of == code).expect("a hit").2;
    assert_eq!(around("A5"), "Wörd of mouth", "shown as written");
}

/// The code itself comes before codes it is a part of.
#[test]
fn the_code_itself_is_first() {
    let run = demo("find x22-02 --json");
    let report: Value = serde_json::from_str(&run.stdout).expect("JSON");
    assert_eq!(report["hits"][0]["code"], "X22-02");
    assert_eq!(report["hits"][0]["rank"], 0);
}

/// Words may stand in different fields of a record, but every one must be there.
#[test]
fn every_word_must_occur() {
    let top = everywhere();
    assert_eq!(hits(&top, &["spathulata", "smith"])[0].0, "B4");
    assert!(hits(&top, &["spathulata", "mouth"]).is_empty());
    assert_eq!(
        hits(&top, &["word smith"]).len(),
        1,
        "words in one argument"
    );
}

#[test]
fn accents_and_capitals_do_not_count() {
    assert_eq!(folded("Łódź É ü ﬁ"), "łodz e u ﬁ");
    assert_eq!(folded("e\u{301}T\u{c9}"), "ete");
    let long = format!("{}NAÏVE{}", "ab ".repeat(30), " cd".repeat(30));
    let found = excerpt(&long, "naive");
    assert!(found.starts_with('…') && found.ends_with('…'), "{found}");
    assert!(found.contains("NAÏVE"), "{found}");
    assert_eq!(excerpt("short", "short"), "short");
}
