//! podbook's own sheet of plants, read again: known by its headings, and nothing in it taken for something else.

use crate::bench_top::BenchTop;
use crate::tables::{assert_adds_up, page, pages_with, sorted, sources, table, today};
use podbook::analysis::import::{Import, import};
use podbook::diagnostic::Severity;
use podbook::record::{ImportChoices, RowClass};
use podbook::recording::draft::PageChange;
use podbook::registry::build;
use podbook::report::import::import_report;

const TODAY: [&str; 2] = ["--today", "2025-06-01"];

/// Into the registry it came from: every row is on record, and no page changes.
#[test]
fn into_its_own_registry_it_adds_nothing() {
    for sheet in ["sheet.csv", "sheet.xlsx"] {
        let top = BenchTop::empty();
        let demo = concat!(env!("CARGO_MANIFEST_DIR"), "/registry-demo");
        let of_demo = [&["--registry", demo][..], &TODAY].concat();
        let wrote = top.run(&[&["export", "plants", "--output", sheet][..], &of_demo].concat());
        assert_eq!(wrote.exit, Some(0), "{wrote}");
        let asked = [&["import", sheet, "--json"][..], &of_demo].concat();
        let report = top.run(&asked);
        let said: serde_json::Value = serde_json::from_str(&report.stdout).expect("JSON");
        assert_eq!(said["coming"], 0, "{report}");
        let classes = said["classes"].as_array().expect("classes");
        assert_eq!(classes.len(), 1, "{classes:?}");
        assert_eq!(classes[0]["class"], "on_record", "{sheet}");
        assert_eq!(
            said["rows"],
            classes[0]["rows"].as_u64().map_or(0, |rows| rows + 1)
        );
    }
}

const PLANTS: &str = "(clones: [(code: \"Max1\", received: \"N. maxima\", from: \"a fair\", on: \"2020-05-01\"),\n\
    (code: \"Tru1\", received: \"N. truncata\", from: \"a shop\", on: \"2021-05-01\")],\n\
    sittings: [(on: \"2024-05-01\", columns: [\"span\"], rows: [[\"Max1\", \"12.5 cm\"]]),\n\
    (on: \"2025-05-01\", columns: [\"span\"], rows: [[\"Max1\", \"14 cm\"]])])";
const HEADS: &str = "plant|name|evidence|sex|status|kept|place|pot|sown|arrived|received as|from|supplier's code|nickname|note|leaf span, cm|leaf span, as written|leaf span, read on";

/// Rows of the sheet, sorted out for the registry it came from, and what is said of them: column, cell, and the words.
fn said_of_rows(rows: &[&str], choices: &str) -> (Import, Vec<(String, String, String)>) {
    let clones = PageChange {
        path: "clones.ron".to_owned(),
        was: None,
        now: Some(PLANTS.to_owned()),
    };
    let sources = sources(&pages_with(&[clones]));
    let (registry, findings) = build(&sources);
    assert_eq!(findings.count(Severity::Fault), 0);
    let choices = ImportChoices::read(choices).expect("choices");
    let tables = [table("sheet.csv", &[&[HEADS], rows].concat())];
    let import = import(&registry, &tables, &choices, today());
    assert_adds_up(&import);
    let report = import_report(&import, &registry.settings.traits);
    let doubts = report.doubts.into_iter();
    let said = doubts.map(|of| (of.column, of.found, of.why)).collect();
    (import, said)
}

/// What is said of the row of one plant: column, cell, and the words.
fn said_of(row: &str) -> (&'static str, Vec<(String, String, String)>) {
    let (import, said) = said_of_rows(&[row], "()");
    assert!(import.coming().next().is_none(), "{:#?}", import.rows);
    (import.rows[0].class.word(), said)
}

/// A cell that is not what the record says is named, with what puts the record right; the row adds nothing.
#[test]
fn a_cell_that_was_corrected_in_the_sheet_is_named() {
    let cells = |sex: &str, from: &str, shown: &str, written: &str| {
        format!(
            "Max1|N. maxima|name claimed|{sex}|in the collection|||||2020-05-01|N. maxima|{from}||||{shown}|{written}|2025-05-01"
        )
    };
    let (class, _) = said_of(&cells("unsexed", "a fair", "14.0", "14 cm"));
    assert_eq!(class, "on_record");
    let (class, doubts) = said_of(&cells("female", "a friend", "14.0", "14.8 cm"));
    assert_eq!(class, "differs");
    let expected = [
        (
            "sex",
            "female",
            "the record says unsexed; to put it right: podbook flower Max1 --sex …",
        ),
        (
            "from",
            "a friend",
            "the record says a fair; to put it right: edit clones.ron",
        ),
        (
            "leaf span, as written",
            "14.8 cm",
            "the record says 14 cm; to put it right: podbook correct Max1 span \"14.8 cm\" --on \"2025-05-01\"",
        ),
    ];
    let expected = expected.map(|(a, b, c)| (a.to_owned(), b.to_owned(), c.to_owned()));
    assert_eq!(doubts, expected);
    // The number beside it is corrected as well as the words.
    let (_, doubts) = said_of(&cells("unsexed", "a fair", "14.8", "14 cm"));
    assert_eq!(doubts.len(), 1, "{doubts:?}");
    assert_eq!(doubts[0].0, "leaf span, cm");
    assert!(
        doubts[0].2.contains("correct Max1 span \"14.8 cm\""),
        "{doubts:?}"
    );
}

/// A name that was corrected, a code that was taken out and one that was typed over: each row is the plant on record, and
/// no choice makes a second plant of it.
#[test]
fn a_corrected_name_or_code_makes_no_second_plant() {
    let row = |code: &str, label: &str| {
        format!(
            "{code}|N. maxima|name claimed|unsexed|in the collection|||||2020-05-01|{label}|a fair||||14|14 cm|2025-05-01"
        )
    };
    for choices in [
        "()",
        "(choices: [(class: code_taken, choose: take), (class: no_plant, choose: take)])",
    ] {
        for (changed, column, why) in [
            (
                row("Max1", "N. truncata"),
                "received as",
                "the record says N. maxima; to put it right: edit clones.ron if the name as received was copied wrongly; for a name you know better now: podbook opinion Max1 \"…\"",
            ),
            (
                row("Max1", ""),
                "received as",
                "the record says N. maxima; to put it right: edit clones.ron",
            ),
            (
                row("", "N. maxima"),
                "plant",
                "the record says Max1; to put it right: write Max1 back into the cell",
            ),
            (
                row("Max9", "N. maxima"),
                "plant",
                "the record says Max1; to put it right: write Max1 back into the cell",
            ),
        ] {
            // Beside a row of the sheet that shows where it came from, where the changed one is not enough.
            let beside = "Tru1|N. truncata|name claimed|unsexed|in the collection|||||2021-05-01|N. truncata|a shop|||||||";
            let (import, said) = said_of_rows(&[&changed, beside], choices);
            let classes: Vec<&str> = import.rows.iter().map(|row| row.class.word()).collect();
            assert_eq!(classes, ["differs", "on_record"], "{changed}: {said:?}");
            assert_eq!((said[0].0.as_str(), said[0].2.as_str()), (column, why));
            assert_eq!(import.coming().count(), 0, "{changed}");
        }
    }
}

/// A row without a code that is no plant on record may be a new one: it is left out until that is chosen.
#[test]
fn a_row_without_a_code_that_is_no_plant_on_record_is_asked_about() {
    let rows = [
        "Max1|N. maxima|name claimed|unsexed|in the collection|||||2020-05-01|N. maxima|a fair||||14|14 cm|2025-05-01",
        "|N. maxima||||||||2024-05-01|N. maxima|a friend|||||||",
    ];
    let (import, said) = said_of_rows(&rows, "()");
    assert_eq!(import.rows[1].class, RowClass::NoPlant);
    assert_eq!(import.coming().count(), 0);
    assert!(
        said[1].2.starts_with("the row has no code any more"),
        "{said:?}"
    );
    let (import, _) = said_of_rows(&rows, "(choices: [(class: no_plant, choose: take)])");
    assert_eq!(import.coming().count(), 1);
}

/// The unit of a heading stands beside a bare number; a sheet that was written without it differs in nothing.
#[test]
fn a_bare_number_has_the_unit_of_its_heading() {
    let pages = [
        (
            "registry.ron",
            "(genus: \"Nepenthes\", hemisphere: north, traits: [(code: \"span\", name: \"leaf span\", reads: length(cm))])",
        ),
        ("species.ron", "(species: [(epithet: \"maxima\")])"),
        (
            "clones.ron",
            "(clones: [(code: \"Max1\", received: \"N. maxima\", from: \"a fair\", on: \"2020-05-01\")],\n\
             sittings: [(on: \"2025-05-01\", columns: [\"span in\"], rows: [[\"Max1\", \"3.77\"]])])",
        ),
    ];
    let top = BenchTop::with(pages);
    let ask = |line: &[&str]| top.run(&[line, &TODAY].concat());
    let sheet = ask(&["export", "plants"]).stdout;
    assert!(sheet.contains(",9.5758,3.77 in,2025-05-01"), "{sheet}");
    let grown = ask(&["growth", "Max1"]).stdout;
    assert!(grown.contains("3.77 in"), "{grown}");
    let read_again = |text: &str| {
        std::fs::write(top.path().join("sheet.csv"), text).expect("a file can be written");
        let said = ask(&["import", "sheet.csv", "--json"]);
        let said: serde_json::Value = serde_json::from_str(&said.stdout).expect("JSON");
        said["classes"][0]["class"].as_str().map(str::to_owned)
    };
    for same in [sheet.clone(), sheet.replace("3.77 in", "3.77")] {
        assert_eq!(read_again(&same).as_deref(), Some("on_record"), "{same}");
    }
    for other in ["3.87 in", "3.87"] {
        let other = sheet.replace("3.77 in", other);
        assert_eq!(read_again(&other).as_deref(), Some("differs"), "{other}");
    }
}

/// The sheet of another registry may have the same code for another plant.
#[test]
fn the_same_code_in_the_sheet_of_another_registry_is_another_plant() {
    let (import, _) = said_of_rows(
        &[
            "Max1|N. truncata|name claimed|unsexed|in the collection|||||2023-04-02|N. truncata|a stall|||||||",
        ],
        "()",
    );
    assert_eq!(import.rows[0].class, RowClass::CodeTaken);
}

/// A sheet older than the last reading is no correction, nor is a date that a spreadsheet wrote its own way.
#[test]
fn an_older_sheet_and_dates_written_another_way_differ_in_nothing() {
    let row = |arrived: &str, shown: &str, written: &str, on: &str| {
        format!(
            "Max1|N. maxima||unsexed|in the collection|||||{arrived}|N. maxima|a fair||||{shown}|{written}|{on}"
        )
    };
    for same in [
        row("2020-05-01", "12.5", "12.5 cm", "2024-05-01"),
        row("01/05/2020", "14", "14.0 cm", "5/1/2025"),
    ] {
        let (class, doubts) = said_of(&same);
        assert_eq!(class, "on_record", "{doubts:?}");
    }
    let (_, doubts) = said_of(&row("2020-06-01", "12.5", "12.5 cm", "2024-05-02"));
    let columns: Vec<&str> = doubts.iter().map(|of| of.0.as_str()).collect();
    assert_eq!(columns[0], "arrived", "{doubts:?}");
    assert_eq!(columns.last(), Some(&"leaf span, read on"), "{doubts:?}");
    let (_, doubts) = said_of(&row("2020-05-01", "", "", "2025-05-01"));
    assert!(
        doubts[0].2.contains("correct Max1 span \"\" --on"),
        "{doubts:?}"
    );
}

/// Into another: seedlings of their crosses, those gone as gone, readings with their days.
#[test]
fn into_another_registry_it_brings_what_it_has() {
    let heads = HEADS;
    let tables = [table(
        "sheet.csv",
        &[
            heads,
            "Max1|N. maxima|name claimed|male, claimed by the supplier|in the collection||shelf 1|9 cm||2020-05-01|N. maxima|a fair|M7|||12.5|12.5 cm|2024-05-01",
            "Max2|N. maxima|name claimed|unsexed|lost by 2023-11 (tag found without a pot)|||||by 2015-05-31|N. maxima|a fair|||||",
            "K1-3|N. (maxima × maxima)|witnessed|unsexed|died 2023-01-05||||2020-01|||||||4.1|41|2022-05-01",
            "K1-4|N. (maxima × maxima)|witnessed|female|in the collection|kept|||2020-01|||||||5|5 cm|2023-05-01",
        ],
    )];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, listed) = (RowClass::Clean, RowClass::CrossNotListed);
    assert_eq!(
        classes,
        [clean, clean, listed, listed],
        "{:#?}",
        import.rows
    );
    let pages = crate::tables::brought(&tables, "()");
    let clones = page(&pages, "clones.ron");
    assert!(
        clones.contains("fate: lost(on: \"by 2023-11\", note: \"tag found without a pot\")"),
        "{clones}"
    );
    assert!(clones.contains("on: \"2024-05-01\""), "{clones}");
    assert!(!clones.contains("K1-3"), "{clones}");
    let cross = page(&pages, "crosses/K1.ron");
    assert!(cross.contains("fate: died(on: \"2023-01-05\")"), "{cross}");
    // Written in another unit than the one shown: the value with its unit is the surer one.
    assert!(cross.contains("[\"3\", \"4.1 cm\"]"), "{cross}");
    assert!(
        cross.contains("on: \"2022-05-01\"") && cross.contains("on: \"2023-05-01\""),
        "{cross}"
    );
}

/// A grower's own columns with the day in the heading are the readings of that day.
#[test]
fn a_day_in_a_heading_is_that_of_its_readings() {
    let lines = [
        "Code|Name|Span 2022-05-01 (cm)|Span 2023-05 (cm)",
        "V1|N. maxima|4|6.5",
    ];
    let pages = crate::tables::brought(&[table("a.csv", &lines)], "()");
    let clones = page(&pages, "clones.ron");
    for day in ["2022-05-01", "2023-05"] {
        assert!(
            clones.contains(&format!("(on: \"{day}\", columns: [\"span\"]")),
            "{clones}"
        );
    }
    assert!(
        clones.contains("\"4 cm\"") && clones.contains("\"6.5 cm\""),
        "{clones}"
    );
}

/// Why a plant went, for how much and with which tag, and what is marked to keep, on the way there and back.
#[test]
fn how_a_plant_went_comes_along() {
    let heads = format!("{HEADS}|went to|price|tag it left with");
    let rows = [
        "Max1|N. maxima|name claimed|unsexed|died 2023-04-01 (frost; the heater)|||||2020-05-01|N. maxima|a fair|||||||||",
        "Max2|N. maxima|name claimed|unsexed|sold 2023-05-01|||||2020-05-01|N. maxima|a fair||||||| Ann|30 EUR|Max2 N. maxima",
        "Max3|N. maxima|name claimed|unsexed|in the collection|kept||||2020-05-01|N. maxima|a fair|||||||||",
        "Max4|N. maxima|name claimed|male|another grower's, never here||||||N. maxima||||||||||",
        "Max5|N. maxima|name claimed|unsexed|died 2020-02-03 to 2020-03-02 (rot)|||||2019|N. maxima|a fair|||||||||",
        "Max6|N. maxima|name claimed|unsexed|sold 2021-04-05 to 2021-05-04|||||2019|N. maxima|a fair||||||| Ann||",
        "Max7|N. maxima|name claimed|unsexed|sold ?|||||2019|N. maxima|a fair||||||| Bo?||",
    ];
    let lines: Vec<&str> = std::iter::once(heads.as_str()).chain(rows).collect();
    let pages = crate::tables::brought(&[table("sheet.csv", &lines)], "()");
    let clones = page(&pages, "clones.ron");
    for words in [
        "fate: died(on: \"2023-04-01\", cause: \"frost; the heater\")",
        "fate: sold(on: \"2023-05-01\", label: \"Max2 N. maxima\", to: \"Ann\", price: \"30 EUR\")",
        "kept: ()",
        "fate: elsewhere",
        "fate: died(on: \"2020-02-03 to 2020-03-02\", cause: \"rot\")",
        "fate: sold(on: \"2021-04-05 to 2021-05-04\", to: \"Ann\")",
        "fate: sold(on: \"?\", to: \"Bo?\")",
    ] {
        assert!(clones.contains(words), "{words}\n{clones}");
    }
    assert_eq!(crate::tables::faults(&pages), Vec::<String>::new());
}
