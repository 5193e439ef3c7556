//! Cells with plain words: an estimate behind its number, words in place of a day, a name that is a number to a computer.

use crate::bench_top::BenchTop;
use crate::tables::{assert_adds_up, brought, page, pages_with, sorted, table};
use podbook::analysis::import::Why;
use podbook::record::{Holds, RowClass};

#[test]
fn a_name_is_no_price() {
    let lines = [
        "Code|Name|Sold",
        "A1|N. maxima|2024-05-01 to Nan",
        "A2|N. maxima|2024-05-02 to Bo for 5",
    ];
    let pages = brought(&[table("a.csv", &lines)], "()");
    let clones = page(&pages, "clones.ron");
    for to in ["to: \"Nan\"", "to: \"Bo\""] {
        assert!(clones.contains(to), "{to}: {clones}");
    }
}

#[test]
fn an_estimate_behind_its_number_is_one() {
    for cell in ["150 (est.)", "150 est", "150 (approx.)", "150, about"] {
        let lines = [
            "Seed parent|Pollen parent|Sown|Seeds",
            &format!("Max1|Tru1|2024-03-01|{cell}"),
        ];
        let import = sorted(&[table("a.csv", &lines)]);
        assert_adds_up(&import);
        let seeds = import.rows[0].facts.seeds.expect("seeds");
        assert_eq!((seeds.number, seeds.estimated), (Some(150), true), "{cell}");
    }
}

/// Seed with words under the day of sowing was sown; with a word that it was not it is still there.
#[test]
fn words_in_place_of_the_day_of_sowing_are_a_sowing() {
    let cross = |cell: &str| {
        let lines = [
            "Seed parent|Pollen parent|Pollinated|Sown|Seeds",
            &format!("Max1|Tru1|2024-03-01|{cell}|150"),
        ];
        let pages = brought(&[table("a.csv", &lines)], "()");
        page(&pages, "crosses/X24-01.ron").to_owned()
    };
    let sown = cross("in the old tray");
    assert!(
        sown.contains("sowings: [") && sown.contains("on: \"?\""),
        "{sown}"
    );
    for cell in ["not yet", "no", "tbd", ""] {
        let kept = cross(cell);
        assert!(!kept.contains("sowings"), "{cell}: {kept}");
    }
}

#[test]
fn a_code_with_another_name_is_shown_with_both() {
    let lines = ["Code|Name", "Max1|N. maxima", "Max1|N. truncata"];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_eq!(import.rows[1].class, RowClass::CodeTaken);
    let names = Why::OtherName("N. truncata".to_owned(), "N. maxima".to_owned());
    assert_eq!(import.rows[1].doubts[0].why, names);
}

/// Codes of plants under `Cross` are parents, whoever the seed came from; names of species are what its label says.
#[test]
fn a_cross_of_codes_from_a_friend_has_parents() {
    for (cell, holds) in [
        ("Ven1 x Max1", Holds::Parents),
        ("ventricosa x maxima", Holds::Label),
    ] {
        let lines = [
            "From|Cross|Sown|Seeds",
            &format!("a friend|{cell}|2024-03-01|30"),
        ];
        let import = sorted(&[table("a.csv", &lines)]);
        assert_eq!(import.tables[0].columns[1].holds, holds, "{cell}");
    }
}

#[test]
fn the_kinds_of_records_are_counted_in_json() {
    let files = pages_with(&[]);
    let files = files
        .iter()
        .map(|(path, text)| (path.as_str(), text.as_str()));
    let top = BenchTop::with(files).file("a.csv", "Code,Name\nQ1,N. maxima\nQ2,N. maxima\n");
    let run = top.run(&["import", "a.csv", "--json", "--today", "2025-06-01"]);
    let said: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
    assert_eq!(said["brings"]["founders"], 2, "{run}");
    assert_eq!(said["brings"]["crosses"], 0, "{run}");
}
