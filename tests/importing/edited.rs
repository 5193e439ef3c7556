//! A cell of the grower's own table edited, and the table brought in again: nothing comes twice, and no change is passed over.

use crate::tables::{assert_adds_up, brought, page, pages_with, sorted, sources, table, today};
use podbook::analysis::import::import;
use podbook::record::{ImportChoices, RowClass};
use podbook::recording::draft::{Draft, PageChange};
use podbook::recording::import::bring_in;
use podbook::registry::build;
use podbook::report::import::import_report;

const HEAD: &str = "Code|Name|From|Where|Size|Measured";

/// What a second run makes of a table: the class and whether the row comes, what is said of it, and what is written.
fn second(
    name: &str,
    before: &[&str],
    after: &[&str],
) -> (RowClass, bool, Vec<String>, Vec<PageChange>) {
    let first = brought(&[table("a.csv", before)], "()");
    let kept = sources(&pages_with(&first));
    let (registry, _) = build(&kept);
    let import = import(
        &registry,
        &[table(name, after)],
        &ImportChoices::default(),
        today(),
    );
    assert_adds_up(&import);
    let mut draft = Draft::new(&registry, today());
    bring_in(&import, &mut draft).expect("it comes in");
    let said = import_report(&import, &[]).doubts;
    let said = said
        .into_iter()
        .map(|of| format!("{}: {}: {}", of.column, of.found, of.why));
    let row = &import.rows[0];
    (row.class, row.comes, said.collect(), draft.changes())
}

/// Another place: the reading stands there once, and the report names the command.
#[test]
fn an_edited_place_is_said_and_the_reading_is_not_doubled() {
    let before = [HEAD, "V1|N. maxima|a friend|shelf 1|9 in|"];
    let after = [HEAD, "V1|N. maxima|a friend|bench 9|9 in|"];
    let (class, comes, said, changes) = second("a.csv", &before, &after);
    assert_eq!((class, comes), (RowClass::Differs, false), "{said:?}");
    let words = "Where: bench 9: the record says shelf 1; to put it right: podbook move V1 …";
    assert_eq!(said, [words]);
    assert!(changes.is_empty(), "{changes:?}");
}

/// Each cell that was edited, and what is said of it; a name too, where the row is known by its table and code.
#[test]
fn every_edited_cell_is_said() {
    let before = [HEAD, "V1|N. maxima|a friend|shelf 1|9 in|2020-05-01"];
    for (row, expected) in [
        (
            "V1|N. maxima|a fair|shelf 1|9 in|2020-05-01",
            "From: a fair: the record says a friend",
        ),
        (
            "V1|N. truncata|a friend|shelf 1|9 in|2020-05-01",
            "Name: N. truncata: the record says N. maxima",
        ),
        (
            "V1|N. maxima|a friend|shelf 1|10 in|2020-05-01",
            "Size: 10 in: the record says 9 in",
        ),
    ] {
        let (class, comes, said, changes) = second("a.csv", &before, &[HEAD, row]);
        assert_eq!((class, comes), (RowClass::Differs, false), "{said:?}");
        assert!(said.len() == 1 && said[0].starts_with(expected), "{said:?}");
        assert!(changes.is_empty(), "{changes:?}");
    }
    // In another table a plant with this code and another name is another plant.
    let other = [HEAD, "V1|N. truncata|a friend|shelf 1|9 in|2020-05-01"];
    assert_eq!(second("b.csv", &before, &other).0, RowClass::CodeTaken);
}

/// So are the day it was potted, what it came as and where the line is from.
#[test]
fn what_it_came_as_and_when_it_was_potted_are_said() {
    let head = "Code|Name|Pot|Potted|Came as|Origin";
    let before = [head, "V1|N. maxima|7 cm|2020|cutting|Java"];
    for (row, expected) in [
        (
            "V1|N. maxima|7 cm|2021|cutting|Java",
            "Potted: 2021: the record says 2020",
        ),
        (
            "V1|N. maxima|7 cm|2020|seed|Java",
            "Came as: seed: the record says cutting",
        ),
        (
            "V1|N. maxima|7 cm|2020|cutting|Bali",
            "Origin: Bali: the record says Java",
        ),
    ] {
        let (class, comes, said, changes) = second("a.csv", &before, &[head, row]);
        assert_eq!((class, comes), (RowClass::Differs, false), "{said:?}");
        let words = format!("{expected}; to put it right: edit clones.ron");
        assert_eq!(said, [words]);
        assert!(changes.is_empty(), "{changes:?}");
    }
}

/// Without a day another value may be a correction: it is said, and not set beside the first. With a day it is a new reading.
#[test]
fn another_value_is_new_only_with_a_day_of_its_own() {
    let before = [HEAD, "V1|N. maxima|a friend|shelf 1|9 in|"];
    let (class, _, said, changes) = second(
        "a.csv",
        &before,
        &[HEAD, "V1|N. maxima|a friend|shelf 1|11 in|"],
    );
    assert_eq!(class, RowClass::Differs);
    let words = "Size: 11 in: the record says 9 in; to put it right: podbook correct V1 span \"11 in\" --on \"?\"";
    assert_eq!(said, [words]);
    assert!(changes.is_empty(), "{changes:?}");
    let dated = [HEAD, "V1|N. maxima|a friend|bench 9|11 in|2024-05-01"];
    let (_, comes, said, changes) = second("a.csv", &before, &dated);
    assert!(
        comes && said.len() == 1,
        "the reading comes, the place is said: {said:?}"
    );
    let clones = page(&changes, "clones.ron");
    assert_eq!(clones.matches("[\"V1\", ").count(), 2, "{clones}");
    assert!(!clones.contains("place: \"bench 9\""), "{clones}");
}

/// The same of two rows that come together.
#[test]
fn rows_of_one_plant_are_held_against_each_other() {
    let lines = [
        "Code|Name|Where|Size|Measured",
        "V1|N. maxima|shelf 1|9 in|",
        "V1||bench 9|9 in|",
        "V1||shelf 1|10 in|",
        "V1|||12 in|2024-05-01",
        "V1|||13 in|1 May 2024",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, differs) = (RowClass::Clean, RowClass::Differs);
    assert_eq!(classes, [clean, differs, differs, clean, differs]);
    let said = import_report(&import, &[]).doubts;
    assert!(
        said[0].why.starts_with("a.csv, row 2 says shelf 1"),
        "{}",
        said[0].why
    );
    assert!(
        said[1].why.starts_with("a.csv, row 2 says 9 in"),
        "{}",
        said[1].why
    );
    // Two sizes of one day are a slip or a tag that is there twice.
    assert!(
        said[2].why.starts_with("a.csv, row 5 says 12 in"),
        "{}",
        said[2].why
    );
    let clones = brought(&tables, "()");
    let clones = page(&clones, "clones.ron");
    assert_eq!(clones.matches("[\"V1\", ").count(), 2, "{clones}");
}

/// Of several columns of sizes the one whose cell was changed is named.
#[test]
fn the_column_of_a_changed_size_is_named() {
    let head = "Code|Name|Span 2023-05-01 (cm)|Span 2024-05-01 (cm)";
    let before = [head, "V1|N. maxima|4|8"];
    let (_, _, said, _) = second("a.csv", &before, &[head, "V1|N. maxima|4|9"]);
    assert_eq!(said.len(), 1, "{said:?}");
    let words = "Span 2024-05-01 (cm): 9 cm: the record says 8 cm";
    assert!(said[0].starts_with(words), "{said:?}");
}

/// An end that is not the one on record: how, when, why and to whom each count, and a plant that is here again.
#[test]
fn another_end_is_said() {
    for (before, after, expected) in [
        (
            "dead 2023-07-01",
            "dead 2023-08-01",
            "died 2023-08-01: the record says died 2023-07-01",
        ),
        (
            "dead (rot)",
            "dead (slugs)",
            "died, day not known (slugs): the record says died, day not known (rot)",
        ),
        (
            "given to Anna",
            "dead",
            "died, day not known: the record says given away to Anna, day not known",
        ),
        (
            "sold to Anna 2023",
            "sold to Bo 2023",
            "sold to Bo 2023: the record says sold to Anna 2023",
        ),
        ("dead 2023", "alive", "here: the record says died 2023"),
    ] {
        let row = |status: &str| format!("V1|N. maxima|{status}");
        let (before, after) = (row(before), row(after));
        let head = "Code|Name|Status";
        let (class, comes, said, changes) = second("a.csv", &[head, &before], &[head, &after]);
        assert_eq!((class, comes), (RowClass::Differs, false), "{said:?}");
        let words = format!("Status: {expected}; to put it right: edit clones.ron");
        assert_eq!(said, [words]);
        assert!(changes.is_empty(), "{changes:?}");
    }
    let died = |on: &str| format!("V1|N. maxima|{on}");
    let (before, after) = (died("2022-01-01"), died("2022-02-02"));
    let head = "Code|Name|Died";
    let (class, _, said, _) = second("a.csv", &[head, &before], &[head, &after]);
    assert_eq!(class, RowClass::Differs, "{said:?}");
    assert!(said[0].starts_with("Died: died 2022-02-02: the record says died 2022-01-01"));
}

/// The same of rows that come together. A cell that says less is nothing else.
#[test]
fn ends_of_one_plant_are_held_against_each_other() {
    let lines = [
        "Code|Name|Status",
        "V1|N. maxima|",
        "V1||sold to Anna 2023-07-01",
        "V1||sold",
        "V1||sold to Bo 2023-07-01",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, on_record) = (RowClass::Clean, RowClass::OnRecord);
    assert_eq!(classes, [clean, clean, on_record, RowClass::Differs]);
    let said = import_report(&import, &[]).doubts;
    let mut said = said.into_iter().map(|of| of.why);
    let words = "a.csv, row 3 says sold to Anna 2023-07-01, and that is recorded";
    assert!(said.any(|why| why.starts_with(words)));
}
