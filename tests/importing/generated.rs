//! A workbook of three sheets and over a thousand rows in which every class occurs in a number that is known.

use crate::bench_top::BenchTop;
use crate::workbook::{Put, PutSheet, xlsx};
use std::collections::BTreeMap;

const TODAY: [&str; 2] = ["--today", "2025-06-01"];

fn row(words: &[&str]) -> Vec<Put> {
    words.iter().map(|words| Put::from(*words)).collect()
}

/// The sheets, and how many rows of each class are in them.
fn generated() -> (Vec<PutSheet>, BTreeMap<&'static str, usize>) {
    let mut plants = vec![
        row(&["All my plants"]),
        row(&["Code", "Name", "From", "Got", "Size", "Remarks"]),
    ];
    let mut known: BTreeMap<&str, usize> = BTreeMap::new();
    let mut add = |class, cells: &[&str]| {
        *known.entry(class).or_default() += 1;
        plants.push(row(cells));
    };
    for n in 0..600 {
        add(
            "clean",
            &[
                &format!("P{n}"),
                "N. ventricosa",
                "a friend",
                "2019-05-03",
                "12 cm",
                "",
            ],
        );
    }
    for n in 0..70 {
        let day = format!("{}/{}/21", n % 6 + 1, n % 5 + 7);
        add(
            "date_two_ways",
            &[&format!("D{n}"), "N. truncata", "a fair", &day, "12 cm", ""],
        );
    }
    for n in 0..60 {
        add(
            "size_without_unit",
            &[
                &format!("U{n}"),
                "N. truncata",
                "a fair",
                "2020",
                &format!("{}", n + 2),
                "",
            ],
        );
    }
    for n in 0..20 {
        let name = format!("N. maxima 'Lantern {n}'");
        add(
            "shared_name",
            &[&format!("A{n}"), &name, "a friend", "2020", "", ""],
        );
        add(
            "shared_name",
            &[&format!("B{n}"), &name, "a shop", "2021", "", ""],
        );
    }
    for n in 0..30 {
        add(
            "duplicate",
            &[
                &format!("P{n}"),
                "N. ventricosa",
                "a friend",
                "2019-05-03",
                "12 cm",
                "",
            ],
        );
    }
    for n in 0..50 {
        add(
            "label_unread",
            &[
                &format!("Z{n}"),
                &format!("zorkleana {n}"),
                "a shop",
                "2020",
                "",
                "",
            ],
        );
    }
    for n in 0..12 {
        add(
            "several_plants",
            &[
                &format!("S{n}a, S{n}b"),
                "N. ventricosa",
                "a shop",
                "2020",
                "",
                "",
            ],
        );
    }
    for n in 0..9 {
        add(
            "no_plant",
            &["", "", "", "", "", &format!("remember to water {n}")],
        );
    }
    for n in 0..15 {
        add(
            "code_taken",
            &[&format!("P{n}"), "N. maxima", "a shop", "2020", "", ""],
        );
    }
    for n in 0..25 {
        add(
            "other",
            &[
                &format!("O{n}"),
                "N. ventricosa",
                "a shop",
                "some summer",
                "",
                "",
            ],
        );
    }
    for n in 0..8 {
        add(
            "on_record",
            &[&format!("P{n}"), "N. ventricosa", "", "", "", ""],
        );
    }
    let mut crosses = vec![row(&["Cross no.", "Mother", "Father", "Pollinated"])];
    let mut add = |class, cells: &[&str]| {
        *known.entry(class).or_default() += 1;
        crosses.push(row(cells));
    };
    for n in 0..40 {
        add(
            "clean",
            &[&format!("X20-{n:02}"), "P50", "D2", "2020-05-01"],
        );
    }
    for n in 0..11 {
        add(
            "parent_unknown",
            &[&format!("X21-{n:02}"), "P50", "", "2021-05-01"],
        );
        add(
            "parent_unknown",
            &[&format!("X22-{n:02}"), "P50", "the tall one", "2022-05-01"],
        );
        add(
            "parent_unknown",
            &[&format!("X23-{n:02}"), "P50", "D2 or D3", "2023-05-01"],
        );
    }
    let mut seedlings = vec![row(&["Cross", "Seedling no", "Span (cm)", "Date measured"])];
    let mut add = |class, cells: &[&str]| {
        *known.entry(class).or_default() += 1;
        seedlings.push(row(cells));
    };
    for n in 0..200 {
        add(
            "clean",
            &[
                &format!("X20-{:02}", n % 40),
                &format!("{}", n / 40 + 1),
                "3.5",
                "2024-05-01",
            ],
        );
    }
    for n in 0..21 {
        add(
            "cross_not_listed",
            &[&format!("X19-{n:02}"), "1", "3.5", "2024-05-01"],
        );
    }
    let sheet = |name, rows| PutSheet {
        name,
        rows,
        joined: Vec::new(),
    };
    let sheets = vec![
        sheet("Plants", plants),
        sheet("Crosses", crosses),
        sheet("Seedlings", seedlings),
    ];
    (sheets, known)
}

fn top() -> (BenchTop, BTreeMap<&'static str, usize>) {
    let (sheets, known) = generated();
    let top = BenchTop::empty();
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    std::fs::write(top.path().join("six years.xlsx"), xlsx(&sheets)).expect("a workbook");
    (top, known)
}

fn asked(top: &BenchTop, more: &[&str]) -> crate::bench_top::Run {
    let ask = ["import", "six years.xlsx", "--registry", "mine"];
    top.run(&[&ask[..], &TODAY, more].concat())
}

/// Every page of the registry, byte by byte.
fn pages(top: &BenchTop) -> BTreeMap<String, Vec<u8>> {
    let mut pages = BTreeMap::new();
    for folder in ["mine", "mine/crosses"] {
        for entry in std::fs::read_dir(top.path().join(folder)).expect("a folder") {
            let path = entry.expect("a file").path();
            if path.extension().is_some_and(|ending| ending == "ron") {
                pages.insert(
                    path.to_string_lossy().into_owned(),
                    std::fs::read(&path).expect("a page"),
                );
            }
        }
    }
    pages
}

fn json(run: &crate::bench_top::Run) -> serde_json::Value {
    assert_eq!(run.exit, Some(0), "{run}");
    serde_json::from_str(&run.stdout).expect("JSON")
}

/// The rows of a class in a report.
fn rows_of(report: &serde_json::Value) -> BTreeMap<String, u64> {
    let classes = report["classes"].as_array().expect("classes").iter();
    let count = |of: &serde_json::Value| {
        (
            of["class"].as_str().expect("a class").to_owned(),
            of["rows"].as_u64().expect("rows"),
        )
    };
    classes.map(count).collect()
}

#[test]
fn every_class_has_as_many_rows_as_were_put_in() {
    let (top, known) = top();
    let report = json(&asked(&top, &["--json"]));
    let found = rows_of(&report);
    let known: BTreeMap<String, u64> = known
        .into_iter()
        .map(|(class, rows)| (class.to_owned(), rows as u64))
        .collect();
    assert_eq!(found, known);
    let rows: u64 = known.values().sum();
    assert!(rows > 1_000, "{rows}");
    // A title and three rows of headings.
    assert_eq!(report["headings"], 4);
    assert_eq!(report["rows"], rows + 4);
}

#[test]
fn a_report_changes_nothing_a_second_run_adds_nothing_and_undo_gives_back_the_bytes() {
    let (top, known) = top();
    let before = pages(&top);
    let reported = json(&asked(&top, &["--json"]));
    assert_eq!(pages(&top), before);
    let applied = json(&asked(&top, &["--apply", "--json"]));
    assert_eq!(applied["change"], 1);
    let after = pages(&top);
    assert_ne!(after, before);
    let checked = top.run(&[&["check", "--registry", "mine"][..], &TODAY].concat());
    assert!(checked.stdout.starts_with("0 faults"), "{checked}");
    let again = json(&asked(&top, &["--apply", "--json"]));
    assert_eq!(again["coming"], 0);
    assert!(again["change"].is_null());
    assert_eq!(pages(&top), after);
    // What came in is on record, what was left out is left out once more.
    let left_out = ["duplicate", "no_plant", "several_plants", "code_taken"];
    let out: u64 = left_out.iter().map(|class| known[class] as u64).sum();
    let on_record = rows_of(&again)["on_record"];
    assert_eq!(
        on_record,
        known["on_record"] as u64 + reported["coming"].as_u64().expect("rows")
    );
    assert_eq!(on_record + out, again["rows"].as_u64().expect("rows") - 4);
    assert_eq!(top.run(&["undo", "--registry", "mine"]).exit, Some(0));
    assert_eq!(pages(&top), before);
}

/// Founders, crosses, seedlings and readings are those of the rows that came, and no other.
#[test]
fn what_comes_in_is_what_was_counted() {
    let (top, _) = top();
    let applied = json(&asked(&top, &["--apply", "--json"]));
    let (founders, crosses, seedlings) = (600 + 70 + 60 + 40 + 50 + 25, 40 + 33 + 21, 221);
    let readings = 600 + 70 + 60 + 221;
    let rows = founders + 40 + 33 + seedlings;
    assert_eq!(
        applied["recorded"],
        format!(
            "Brought in {rows} rows: {founders} founders, {crosses} crosses, {seedlings} seedlings and {readings} readings"
        )
    );
}
