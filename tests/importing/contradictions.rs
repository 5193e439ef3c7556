//! Rows whose cells contradict each other: each is asked about, and none passes as clear.

use crate::tables::{
    assert_adds_up, brought, chosen, page, pages_with, sorted, sources, table, today,
};
use podbook::analysis::import::{Import, Why, import};
use podbook::diagnostic::Severity;
use podbook::record::{ImportChoices, RowClass};
use podbook::recording::draft::PageChange;
use podbook::registry::build;

const TAKE: &str = "(choices: [(class: contradiction, choose: take)])";

fn classes(import: &Import) -> Vec<RowClass> {
    import.rows.iter().map(|row| row.class).collect()
}

/// Sold and died, here and died, and two days of one death; the same said twice is none.
#[test]
fn two_ends_of_one_plant_are_asked_about() {
    let lines = [
        "Code|Name|Status|Sold|Died",
        "A1|N. maxima||2021-05-01|2022-01-01",
        "A2|N. maxima|alive||2022-01-01",
        "A3|N. maxima|died 2021-03-01||2022-01-01",
        "A4|N. maxima|dead||2022-01-01",
        "A5|N. maxima|alive||",
        "A6|N. maxima|sold 2021|2021-05-01|",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    let asked = RowClass::Contradiction;
    let clean = RowClass::Clean;
    assert_eq!(classes(&import), [asked, asked, asked, clean, clean, clean]);
    assert!(import.rows[..3].iter().all(|row| !row.comes));
    assert_adds_up(&import);
    let pages = brought(&tables, TAKE);
    let clones = page(&pages, "clones.ron");
    for (code, fate) in [
        ("A1", "fate: sold(on: \"2021-05-01\")"),
        ("A2", "fate: died(on: \"2022-01-01\")"),
        ("A3", "fate: died(on: \"2021-03-01\")"),
        ("A4", "fate: died(on: \"2022-01-01\")"),
        ("A6", "fate: sold(on: \"2021-05-01\")"),
    ] {
        let line = clones.lines().find(|line| line.contains(code));
        assert!(
            line.is_some_and(|line| line.contains(fate)),
            "{code}: {clones}"
        );
    }
}

/// A label of a species that a parent is not, whether the parent stands before the row or behind it.
#[test]
fn a_label_that_its_parents_cannot_have_is_asked_about() {
    let lines = [
        "Code|Name|From|Mother|Father|Span (cm)",
        "S1|N. maxima||S5|S4|3",
        "S2|N. truncata||S5|S5|4",
        "S3|N. truncata x ventricosa||S5|S4|5",
        "S4|N. ventricosa|a fair|||",
        "S5|N. truncata|a fair|||",
        "S6|N. truncata|a fair|S5|S4|",
        "S7|N. maxima||S5|S4|3",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    let (asked, clean) = (RowClass::Contradiction, RowClass::Clean);
    let found = classes(&import);
    assert_eq!(
        (found[0], found[1], found[2], found[6]),
        (asked, RowClass::ParentUnknown, clean, asked)
    );
    // Its parents are not dropped silently: the report says where they stay.
    assert_eq!(found[5], RowClass::Other);
    assert!(import.rows[5].comes);
    let taken = chosen(&tables, TAKE);
    assert!(taken.rows.iter().all(|row| row.comes));
}

/// A seedling of a cross with parents of another pair.
#[test]
fn parents_that_are_not_those_of_the_cross_are_asked_about() {
    let crosses = table(
        "crosses.csv",
        &["Cross no.|Mother|Father", "X20-01|N. maxima|N. truncata"],
    );
    let plants = table(
        "plants.csv",
        &[
            "Code|Cross|Mother|Father|Span (cm)",
            "1|X20-01|N. maxima|N. truncata|2",
            "2|X20-01|N. maxima|N. ventricosa|3",
            "3|X20-01|||4",
        ],
    );
    let import = sorted(&[crosses, plants]);
    let (asked, clean) = (RowClass::Contradiction, RowClass::Clean);
    assert_eq!(classes(&import)[1..], [clean, asked, clean]);
}

const CLONES: &str = "(clones: [(code: \"M1\", received: \"N. maxima\"), (code: \"M2\", received: \"N. maxima\"), \
    (code: \"T1\", received: \"N. truncata\", ramets: [(code: \"a\")]), (code: \"V1\", received: \"N. ventricosa\")])";
const CROSS: &str = "(code: \"X20-01\", parents: known(seed: \"M1\", pollen: \"T1\"), confidence: claim, \
    seedlings: [(number: \"1\"), (number: \"9\")])";
const OPEN: &str = "(code: \"X20-02\", parents: pollen_one_of(seed: \"maxima\", pollen: [\"T1\", \"V1\"]), confidence: one_of_several)";

/// The cross on record, of seedlings that are new, of one that is known, and of one of which nothing else is new.
#[test]
fn parents_that_are_not_those_of_the_cross_on_record_are_asked_about() {
    let page = |(path, now): (&str, &str)| PageChange {
        path: path.to_owned(),
        was: None,
        now: Some(now.to_owned()),
    };
    let pages = [
        ("clones.ron", CLONES),
        ("crosses/X20-01.ron", CROSS),
        ("crosses/X20-02.ron", OPEN),
    ];
    let sources = sources(&pages_with(&pages.map(page)));
    let (registry, findings) = build(&sources);
    assert_eq!(findings.count(Severity::Fault), 0);
    let lines = [
        "Code|Cross|Mother|Father|Span (cm)",
        "1|X20-01|M1|V1|2",
        "2|X20-01|M2|T1|3",
        "3|X20-01|M1|T1-a|4",
        "4|X20-01|N. maxima|N. truncata|5",
        "5|X20-01|N. maxima|N. ventricosa|5",
        "6|X20-01|||6",
        "9|X20-01|V1|T1|",
        "1|X20-02|M2|V1|5",
        "2|X20-02|M2|M1|5",
        "3|X20-02|T1|V1|5",
    ];
    let import = import(
        &registry,
        &[table("a.csv", &lines)],
        &ImportChoices::default(),
        today(),
    );
    assert_adds_up(&import);
    let asked: Vec<usize> = import
        .rows
        .iter()
        .filter(|row| {
            let mut doubts = row.doubts.iter();
            doubts.any(|of| matches!(of.why, Why::CrossHasOthers(_)))
        })
        .map(|row| row.line)
        .collect();
    assert_eq!(asked, [2, 3, 6, 8, 10, 11], "{:#?}", import.rows);
    let out = import.rows.iter().filter(|row| !row.comes);
    assert_eq!(out.map(|row| row.line).collect::<Vec<_>>(), asked);
}

/// `C20-01` and `c20-01` are asked about, in one table and against the registry, and are never two files.
#[test]
fn codes_that_differ_only_in_capitals_are_asked_about() {
    let crosses = [
        "Cross no.|Mother|Father",
        "C20-01|N. alata|N. mira",
        "c20-01|N. alata|N. ventricosa",
    ];
    let plants = [
        "Code|Name|Span (cm)",
        "E1|N. maxima|3",
        "e1|N. truncata|4",
        "c20-01-2||5",
    ];
    let seedlings = ["Seedling|Cross|Span (cm)", "1|Q7|3", "2|q7|4", "|c20-01|5"];
    let tables = [
        table("crosses.csv", &crosses),
        table("plants.csv", &plants),
        table("seedlings.csv", &seedlings),
    ];
    let import = sorted(&tables);
    let (asked, clean) = (RowClass::CodeTaken, RowClass::Clean);
    let listed = RowClass::CrossNotListed;
    let found = classes(&import);
    assert_eq!(found[..5], [clean, asked, clean, asked, asked]);
    assert_eq!(found[5..], [listed, asked, asked]);
    assert_adds_up(&import);
    for choices in ["()", "(choices: [(class: code_taken, choose: take)])"] {
        let pages = brought(&tables, choices);
        let mut paths: Vec<String> = pages.iter().map(|of| of.path.to_lowercase()).collect();
        paths.sort();
        let count = paths.len();
        paths.dedup();
        assert_eq!(paths.len(), count, "{paths:?}");
    }
}
