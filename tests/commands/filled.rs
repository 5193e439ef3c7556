//! `podbook measure --from`: a filled table is the sitting a person would write, or is refused row by row.

use crate::bench_top::BenchTop;
use crate::measure::{page_with, plants, rows, values};
use crate::sixty::{PAGE, sixty};
use insta::assert_snapshot;

/// The sheet as CSV with every row filled in, in quotes where a value needs them.
fn filled(sheet: &str) -> String {
    let mut lines = sheet.lines();
    let head = lines.next().expect("headings");
    let rows = lines.zip(plants()).map(|(line, number)| {
        let cells: Vec<&str> = line.split(',').collect();
        assert_eq!(cells[0], format!("X23-01-{number}"));
        let blanks = cells[1..=6].iter().all(|cell| cell.is_empty());
        assert!(blanks, "{line}");
        format!(
            "{},{},,{}\r\n",
            cells[0],
            values(number).join(","),
            cells[7..].join(",")
        )
    });
    format!("{head}\r\n{}", rows.collect::<String>())
}

/// Two commands, one change: print, hand in. Sixty plants and five traits, byte for byte as by hand.
#[test]
fn a_filled_sheet_is_the_sitting_written_by_hand() {
    let top = sixty();
    let ask = [
        "sheet",
        "X23-01",
        "--traits",
        "span,height,banding,teeth,rim",
        "-o",
        "sheet.csv",
    ];
    assert_eq!(top.run(&ask).exit, Some(0));
    let top = {
        let sheet = filled(&top.text("sheet.csv"));
        top.file("sheet.csv", &sheet)
    };
    let before = top.text(PAGE);
    let run = top.run_with("", &["measure", "X23-01", "--from", "sheet.csv"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(
        run.stdout
            .starts_with("60 plants, X23-01-1 to X23-01-62: 300 readings on 2024-06-01"),
        "{run}"
    );
    assert_eq!(top.text(PAGE), page_with(&rows(plants())));
    assert_eq!(top.run(&["undo"]).exit, Some(0));
    assert_eq!(top.text(PAGE), before);
}

/// The same table as text set apart in three ways, and from both kinds of spreadsheet; names of traits head columns too.
#[test]
fn every_form_of_a_table_gives_the_same_page() {
    let table = [
        "plant|Leaf span (cm)|pitcher height, mm|rim colour|date|remarks",
        "X23-01-1|5.1|20| Red |2024-05-30|bent",
        "X23-01-2|4.9||near black|2024-05-30|",
        "",
        "3|Dead|||2024-05-30|",
        "4|2 1/4 in|21|go|2024-05-30|",
    ];
    let ask = ["measure", "X23-01", "--from"];
    let mut pages = Vec::new();
    for mark in ["\t", ";", ","] {
        // A comma inside a heading is quoted where commas set cells apart.
        let text = table
            .join("\n")
            .replace("pitcher height, mm", "\"pitcher height, mm\"");
        let top = sixty();
        let run = top.run_with(&text.replace('|', mark), &[&ask[..], &["-"]].concat());
        assert_eq!(run.exit, Some(0), "{mark:?} {run}");
        pages.push(top.text(PAGE));
    }
    for (file, bytes) in [
        ("tray.xlsx", &include_bytes!("filled/tray.xlsx")[..]),
        ("tray.ods", &include_bytes!("filled/tray.ods")[..]),
    ] {
        let top = sixty();
        std::fs::write(top.path().join(file), bytes).expect("a file can be written");
        let run = top.run_with("", &["measure", "--from", file]);
        assert_eq!(run.exit, Some(0), "{file} {run}");
        pages.push(top.text(PAGE));
    }
    assert!(pages.iter().all(|page| *page == pages[0]), "{pages:#?}");
    let sitting = pages[0]
        .find("(on: \"2024-05-30\", columns")
        .expect("a sitting");
    assert_snapshot!("filled-page", &pages[0][sitting..]);
    assert!(pages[0].contains(
        "(number: \"3\", sowing: \"S1\", place: \"shelf 1, front\", fate: died(on: \"2024-05-30\"))"
    ));
}

/// Rows, cells and headings that do not fit are listed one by one, and nothing is written; `--skip-bad` writes the rest.
#[test]
fn nothing_is_half_taken() {
    let table = "number\tspan\tbandin\trim\theight mm\tdate\n\
        1\t4.5 cm\t2\tblue\t20\t2024-05-30\n\
        2\t4,5\t2\tred\t20\t2024-05-30\n\
        3\t1,200 mm\t\t\t2024-05-03\t\n\
        7\t5 cm\t\t\t\t2024-05-30\n\
        99\t5 cm\t\t\t\t\n\
        \t5 cm\t\t\t\t\n\
        4\t5 cm\t\t\t\t2024-07-01\n\
        5\t5 cm\t\t\t\t\n\
        5\t5 cm\t\t\t\t\n\
        Ven1\t20 cm\t\t\t\t\n\
        6\t51 mm\t\tr\t\t\n";
    let top = sixty();
    let ask = ["measure", "X23-01", "--from", "-"];
    let run = top.run_with(table, &ask);
    assert_snapshot!("filled-bad", run);
    assert_eq!(top.text(PAGE), sixty().text(PAGE));
    let rest = top.run_with(table, &[&ask[..], &["--skip-bad"]].concat());
    assert_eq!(rest.exit, Some(0), "{rest}");
    let page = top.text(PAGE);
    let sitting = page.find("(on: \"2024-06-01\"").expect("a sitting");
    assert_snapshot!("filled-rest", &page[sitting..]);
    assert_eq!(top.run(&["check"]).exit, Some(0));
}

#[test]
fn what_is_no_table_is_refused() {
    let mut told = Vec::new();
    let mut wide = "plant,span cm".to_owned();
    wide.push_str(&",x".repeat(300));
    let files: [(&str, &[u8]); 8] = [
        ("empty.csv", b"\n\n"),
        ("head.csv", b"plant,span cm\n"),
        ("plants.csv", b"tag,span cm\n1,5\n"),
        ("twice.csv", b"plant,span cm,leaf span\n1,5,5\n"),
        ("traits.csv", b"plant,colour of the pot\n1,red\n"),
        ("utf16.csv", b"\xff\xfep\0l\0a\0n\0t\0"),
        ("broken.xlsx", b"PK\x03\x04 this is no archive"),
        ("wide.csv", wide.as_bytes()),
    ];
    for (file, bytes) in files {
        let top = sixty();
        std::fs::write(top.path().join(file), bytes).expect("a file can be written");
        let run = top.run_with("", &["measure", "X23-01", "--from", file]);
        assert_ne!(run.exit, Some(0), "{file}: {run}");
        assert_eq!(top.text(PAGE), sixty().text(PAGE), "{file}");
        told.push(format!("{file}\n{run}"));
    }
    told.push(
        BenchTop::empty()
            .run(&["measure", "--from", "none.csv"])
            .to_string(),
    );
    assert_snapshot!("filled-no-table", told.join("\n"));
}

/// A row that is there is replaced only when asked; two days make two sittings in one change.
#[test]
fn days_and_rows_that_are_there() {
    let top = sixty();
    let first = "plant,span cm,date\nX23-01-1,4.5,2024-05-30\nX23-01-1,4.6,2024-05-31\nX23-01-3,4.1,2024-05-31\nVen1,20,2024-05-30\n";
    let ask = ["measure", "--from", "-"];
    let run = top.run_with(first, &ask);
    assert_eq!(run.exit, Some(0), "{run}");
    assert_eq!(top.text(PAGE).matches("columns: [\"span cm\"]").count(), 2);
    assert!(top.text("clones.ron").contains("[\"Ven1\", \"20\"]"));
    let again = "plant,span cm,date\nX23-01-1,4.7,2024-05-30\nX23-01-2,4.4,2024-05-30\n";
    let refused = top.run_with(again, &ask);
    assert_eq!(refused.exit, Some(2), "{refused}");
    assert!(
        refused
            .stderr
            .contains("row 2, X23-01-1: the plant has a row in that sitting"),
        "{refused}"
    );
    // Each row of a table by its own page and day.
    let others = "plant,span cm,date\nX23-01-2,4.4,2024-05-30\nVen1,21,2024-05-30\nX23-01-3,4.3,2024-05-31\n";
    let refused = top.run_with(others, &ask).stderr;
    for row in ["row 3, Ven1", "row 4, X23-01-3"] {
        assert!(
            refused.contains(&format!("{row}: the plant has a row in that sitting")),
            "{refused}"
        );
    }
    let run = top.run_with(again, &[&ask[..], &["--again"]].concat());
    assert_eq!(run.exit, Some(0), "{run}");
    let page = top.text(PAGE);
    assert!(
        page.contains("            [\"1\", \"4.7\"],\n            [\"2\", \"4.4\"],\n"),
        "{page}"
    );
    assert!(page.contains("            [\"1\", \"4.6\"],\n"), "{page}");
}

/// A blank cell touches nothing, also where the row is read again.
#[test]
fn a_blank_cell_takes_no_reading_away() {
    let top = sixty();
    let ask = ["measure", "--from", "-", "--again", "--on", "2024-05-30"];
    for (table, row) in [
        (
            "plant,span cm,banding,note\nX23-01-1,4.5,3,slow\nX23-01-2,4.2,2,\n",
            "[\"1\", \"4.5\", \"3\", \"slow\"]",
        ),
        (
            "plant,span cm,banding\nX23-01-1,4.7,\nX23-01-2,,4\n",
            "[\"1\", \"4.7\", \"3\", \"slow\"]",
        ),
        (
            "plant,span cm,banding\nX23-01-2,4.4,\n",
            "[\"2\", \"4.4\", \"4\", \"\"]",
        ),
    ] {
        let run = top.run_with(table, &ask);
        assert_eq!(run.exit, Some(0), "{run}");
        assert!(top.text(PAGE).contains(row), "{}", top.text(PAGE));
    }
}
