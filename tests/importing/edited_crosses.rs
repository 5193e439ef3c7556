//! A row of a cross or a packet of seed that gained a cell: the cross stays as it is, and the command for the cell is said.

use crate::tables::{assert_adds_up, brought, page, pages_with, sources, table, today};
use podbook::analysis::import::{Import, InputTable, import};
use podbook::record::{ImportChoices, RowClass};
use podbook::recording::draft::{Draft, PageChange};
use podbook::recording::import::bring_in;
use podbook::registry::build;
use podbook::report::import::import_report;

const HEAD: &str = "Cross no.|Mother|Father|Pollinated|Pods|Harvested|Sown|Seeds";

fn plants() -> InputTable {
    table("p.csv", &["Code|Name", "V1|N. maxima", "V2|N. ventricosa"])
}

/// What a run makes of tables in a registry with these pages, and what is said.
fn then(before: &[PageChange], tables: &[InputTable]) -> (Import, Vec<String>, Vec<PageChange>) {
    let kept = sources(&pages_with(before));
    let (registry, _) = build(&kept);
    let import = import(&registry, tables, &ImportChoices::default(), today());
    assert_adds_up(&import);
    let mut draft = Draft::new(&registry, today());
    bring_in(&import, &mut draft).expect("it comes in");
    let said = import_report(&import, &[]).doubts;
    let said = said.into_iter().filter(|of| of.class != "on_record");
    let said = said.map(|of| format!("{}: {}: {}", of.column, of.found, of.why));
    (import, said.collect(), draft.changes())
}

fn cross(cells: &str) -> InputTable {
    table(
        "c.csv",
        &[HEAD, &format!("X21-01|V1|V2|2021-05-01|{cells}")],
    )
}

/// The day of the harvest, and that of the sowing, each with its command; a second cross is never made.
#[test]
fn a_new_cell_of_a_cross_is_said_with_its_command() {
    let before = brought(&[plants(), cross("|||")], "()");
    let (import, said, changes) = then(&before, &[plants(), cross("2|2021-09-10||80")]);
    let row = import.rows.last().expect("a row");
    assert_eq!(
        (row.class, row.comes),
        (RowClass::Differs, false),
        "{said:?}"
    );
    let command = "the record says nothing; to put it right: podbook harvest X21-01 --capsules 2 --seeds 80 --on \"2021-09-10\"";
    assert_eq!(
        said,
        [
            format!("Harvested: 2021-09-10: {command}"),
            format!("Pods: 2: {command}"),
            format!("Seeds: 80: {command}"),
        ]
    );
    assert!(changes.is_empty(), "{changes:?}");
    let (_, said, changes) = then(&before, &[cross("||2021-10-01|")]);
    assert_eq!(
        said,
        [
            "Sown: 2021-10-01: the record says nothing; to put it right: podbook sow X21-01 --on \"2021-10-01\""
        ]
    );
    assert!(changes.is_empty(), "{changes:?}");
}

/// When the cell is on record, also in other words, the row says nothing new.
#[test]
fn a_cell_that_was_recorded_since_is_known() {
    let before = brought(&[plants(), cross("1|10 Sept 2021||")], "()");
    let (import, said, _) = then(&before, &[cross("1|2021-09-10||")]);
    assert_eq!(import.rows[0].class, RowClass::OnRecord, "{said:?}");
    let (import, said, _) = then(&before, &[cross("1|2021-09-11||")]);
    assert_eq!(import.rows[0].class, RowClass::Differs);
    assert_eq!(
        said,
        [
            "Harvested: 2021-09-11: the record says 10 Sept 2021; to put it right: edit crosses/X21-01.ron"
        ]
    );
}

/// The seed of one pod is that of its lot and of its sowing: twice as much is no sum of them.
#[test]
fn twice_the_seed_is_another_number() {
    let before = brought(&[plants(), cross("1|||40")], "()");
    let (import, said, _) = then(&before, &[cross("1|||80")]);
    assert_eq!(import.rows[0].class, RowClass::Differs);
    let words = "Seeds: 80: the record says 40; to put it right: edit crosses/X21-01.ron";
    assert_eq!(said, [words]);
}

/// Another father in the row that was edited is said; in another table such a row is another cross.
#[test]
fn other_parents_are_said_or_make_another_cross() {
    let before = brought(&[plants(), cross("|||")], "()");
    let head = "Cross no.|Mother|Father|Pollinated";
    let other = "X21-01|V2|V1|2021-05-01";
    let (import, said, _) = then(&before, &[table("c.csv", &[head, other])]);
    assert_eq!(import.rows[0].class, RowClass::Differs, "{said:?}");
    let edit = "to put it right: edit crosses/X21-01.ron";
    assert_eq!(
        said,
        [
            format!("Mother: V2: the record says V1; {edit}"),
            format!("Father: V1: the record says V2; {edit}"),
        ]
    );
    let (import, ..) = then(&before, &[table("d.csv", &[head, other])]);
    assert_eq!(import.rows[0].class, RowClass::CodeTaken);
    // The same parents are the same cross, in whatever table.
    let same = "X21-01|V1|V2|2021-05-01";
    let (import, ..) = then(&before, &[table("d.csv", &[head, same])]);
    assert_eq!(import.rows[0].class, RowClass::OnRecord);
}

/// Parents that were put right are said also where they may be those of the record, and so is a doubt that came since; a cell
/// that says what is on record is not.
#[test]
fn parents_that_were_put_right_are_said() {
    let plants = table(
        "p.csv",
        &[
            "Code|Name",
            "V1|N. maxima",
            "V2|N. ventricosa",
            "V4|N. mira",
        ],
    );
    let rows = |all: &[&str]| {
        let rows = all.iter().enumerate();
        let rows = rows.map(|(at, pair)| format!("X21-0{at}|{pair}|2021"));
        let head = "Cross no.|Mother|Father|Pollinated".to_owned();
        let lines: Vec<String> = std::iter::once(head).chain(rows).collect();
        let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
        table("c.csv", &lines)
    };
    let before = [
        "V1|V2 or V4",
        "V1|V2 & V4",
        "V1|self",
        "V1|",
        "V1|open",
        "V1|V2?",
        "V1|V2",
    ];
    let after = [
        "V1|V4",
        "V1|V2 or V4",
        "V1|V2",
        "V1|V2?",
        "V1|V2",
        "V1|V4",
        "V1|V2 or V4",
    ];
    let kept = brought(&[plants.clone(), rows(&before)], "()");
    let (import, said, changes) = then(&kept, &[plants.clone(), rows(&after)]);
    assert!(changes.is_empty(), "{changes:?}");
    let rest = import.rows[3..].iter();
    assert!(
        rest.clone().all(|row| row.class == RowClass::Differs),
        "{said:?}"
    );
    let recorded = ["V2 or V4", "V2 & V4", "", "", "open", "", "V2"];
    for ((said, recorded), after) in said.iter().zip(recorded).zip(after) {
        let recorded = match recorded {
            "" => "nothing",
            some => some,
        };
        let words = format!("Father: {}: the record says {recorded}; ", &after[3..]);
        assert!(said.starts_with(&words), "{words}: {said}");
    }
    // Another cell of such a row, and the same parents: the parents are no difference.
    let mut later = rows(&before);
    for row in &mut later.rows[1..] {
        row.cells[3] = "2022".to_owned();
    }
    let (_, said, _) = then(&kept, &[plants, later]);
    assert!(
        said.iter().all(|of| of.starts_with("Pollinated: 2022")),
        "{said:?}"
    );
    assert_eq!(said.len(), before.len());
}

/// So it is with a seedling that was named by its parents, and with the day it was sown.
#[test]
fn parents_of_a_seedling_that_were_put_right_are_said() {
    let row = |pair: &str| {
        let line = format!("Q1|{pair}|12 cm");
        table("q.csv", &["Code|Mother|Father|Sown|Span", &line])
    };
    let before = brought(&[plants(), row("V1|V2 (?)|2019-04")], "()");
    let (import, said, changes) = then(&before, &[plants(), row("V1|V2|2019-03")]);
    assert_eq!(import.rows[2].class, RowClass::Differs);
    assert_eq!(
        said,
        [
            "Sown: 2019-03: the record says 2019-04-01 to 2019-04-30; to put it right: edit crosses/X19-01.ron",
            "Father: V2: the record says nothing; to put it right: edit crosses/X19-01.ron",
        ]
    );
    assert!(changes.is_empty(), "{changes:?}");
    let (import, said, _) = then(&before, &[plants(), row("V1|V2 (?)|2019")]);
    assert_eq!(import.rows[2].class, RowClass::OnRecord, "{said:?}");
}

/// The day a packet came is held against the record as well.
#[test]
fn the_day_a_packet_came_is_said() {
    let packet = |on: &str| {
        let line = format!("S1|N. maxima|swap|{on}|15");
        table("s.csv", &["Packet|Label|From|Received|Seeds", &line])
    };
    let before = brought(&[packet("2019")], "()");
    let (_, said, changes) = then(&before, &[packet("2018")]);
    let words = "Received: 2018: the record says 2019; to put it right: edit crosses/S1.ron";
    assert_eq!(said, [words]);
    assert!(changes.is_empty(), "{changes:?}");
}

/// A packet that has been sown since, and what came up.
#[test]
fn a_packet_that_was_sown_is_said_with_its_command() {
    let head = "Packet no|Label|Seeds|Sown|Came up|Counted on";
    let packet = |cells: &str| {
        table(
            "s.csv",
            &[head, &format!("P1|maxima x veitchii|30|{cells}")],
        )
    };
    let before = brought(&[packet("||")], "()");
    assert!(page(&before, "crosses/P1.ron").contains("seeds: 30"));
    let (import, said, changes) = then(&before, &[packet("2024-01-20|12|2024-04-01")]);
    assert_eq!(import.rows[0].class, RowClass::Differs, "{said:?}");
    assert_eq!(
        said,
        [
            "Sown: 2024-01-20: the record says nothing; to put it right: podbook sow P1 --seeds 30 --on \"2024-01-20\"",
            "Came up: 12: the record says nothing; to put it right: podbook count P1 --up 12 --on \"2024-04-01\"",
        ]
    );
    assert!(changes.is_empty(), "{changes:?}");
}

/// A cross that is on record is still the parent of what is new, also where its row was edited.
#[test]
fn an_edited_cross_can_be_a_parent() {
    let before = brought(&[plants(), cross("|||")], "()");
    let lines = [
        HEAD,
        "X21-01|V1|V2|2021-05-01||2021-09-10||",
        "X24-01|X21-01|V2|2024-05-01||||",
    ];
    let (_, said, changes) = then(&before, &[table("c.csv", &lines)]);
    let text = page(&changes, "crosses/X24-01.ron");
    assert!(text.contains("seed: \"X21-01\""), "{said:?}\n{text}");
}

/// A later count of a cross in the same table is no second cross, neither at once nor when the first row is on record.
#[test]
fn a_later_count_in_one_table_is_said_with_its_command() {
    let head = "Cross|Mother|Father|Sown|Germinated|Counted on|Remarks";
    let first = "19-1|V1|V2|2019-09-10|45|2019-12-01|";
    let later = "19-1|V1|V2|2019-09-10|60|2020-02-01|";
    let both = table("c.csv", &[head, first, later]);
    let (import, said, changes) = then(&[], &[plants(), both.clone()]);
    assert_eq!(import.rows[3].class, RowClass::Differs, "{said:?}");
    let command = "podbook count 19-1 --up 60 --on \"2020-02-01\"";
    assert_eq!(
        said,
        [format!(
            "Germinated: 60: c.csv, row 2 says 45, and that is recorded; to record this cell afterwards: {command}"
        )]
    );
    let text = page(&changes, "crosses/19-1.ron");
    assert!(!text.contains("count: 60"), "{text}");
    let before = brought(&[plants(), table("c.csv", &[head, first])], "()");
    let (import, said, changes) = then(&before, &[plants(), both]);
    assert_eq!(import.rows[3].class, RowClass::Differs, "{said:?}");
    assert!(said.len() == 1 && said[0].ends_with(command), "{said:?}");
    assert!(changes.is_empty(), "{changes:?}");
    // A remark of such a row is kept, and a row that says the same is on record.
    let remark = format!("{later}damped off");
    let (_, _, changes) = then(&[], &[plants(), table("c.csv", &[head, first, &remark])]);
    let text = page(&changes, "crosses/19-1.ron");
    assert!(text.contains("Remarks: damped off"), "{text}");
    let same = "19-1|V1|V2|10 Sept 2019||||";
    let (import, ..) = then(&[], &[plants(), table("c.csv", &[head, first, same])]);
    assert_eq!(import.rows[3].class, RowClass::OnRecord);
}

const SOWN: &str = "Cross|Mother|Father|Pollinated|Sown|Seeds|Came up|Counted on|Place";

fn sown(name: &str, rows: &[&str]) -> InputTable {
    let rows = rows
        .iter()
        .map(|row| format!("X22-1|V1|V2|2022-05-01|{row}"));
    let rows: Vec<String> = rows.collect();
    let lines: Vec<&str> = std::iter::once(SOWN)
        .chain(rows.iter().map(String::as_str))
        .collect();
    table(name, &lines)
}

/// A list of sowings repeats mother and father in each row: a day that is surely another is one more sowing, with its own count,
/// and a later count of that is not offered for the first.
#[test]
fn a_row_with_another_day_of_sowing_is_one_more_sowing() {
    let first = "2022-10-01|60|30|2023-01-10|tent";
    let second = "2022-12-01|60|45|2023-03-01|tent";
    let later = "2022-12-01|60|50|2023-04-01|tent";
    let tables = [plants(), sown("s.csv", &[first, second, later])];
    let (import, said, changes) = then(&[], &tables);
    let classes: Vec<RowClass> = import.rows[2..].iter().map(|row| row.class).collect();
    let clean = RowClass::Clean;
    assert_eq!(classes, [clean, clean, RowClass::Differs], "{said:?}");
    assert_eq!(
        said,
        [
            "Came up: 50: s.csv, row 3 says 45, and that is recorded; to record this cell afterwards: podbook count X22-1.… --up 50 --on \"2023-04-01\""
        ]
    );
    let both = page(&changes, "crosses/X22-1.ron");
    for words in [
        "on: \"2022-10-01\", seeds: 60, germinated: [(on: \"2023-01-10\", count: 30)]",
        "on: \"2022-12-01\", seeds: 60, germinated: [(on: \"2023-03-01\", count: 45)]",
    ] {
        assert!(both.contains(words), "{words}: {both}");
    }
    // Of a cross on record it is one more, too; in the row that was brought in the day may have been put right.
    let before = brought(&[plants(), sown("s.csv", &[first])], "()");
    let (_, said, changes) = then(&before, &[sown("other.csv", &[second])]);
    assert_eq!(said, Vec::<String>::new());
    let added = page(&changes, "crosses/X22-1.ron");
    assert!(
        added.contains("code: \"S2\", on: \"2022-12-01\""),
        "{added}"
    );
    let (_, said, changes) = then(&before, &[sown("s.csv", &[second])]);
    assert!(
        said.iter()
            .any(|of| of.contains("podbook count X22-1.… --up 45")),
        "{said:?}"
    );
    assert!(changes.is_empty(), "{changes:?}");
}
