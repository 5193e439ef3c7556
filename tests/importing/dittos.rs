//! Ditto marks, and fathers that are the mother.

use crate::tables::{
    assert_adds_up, brought, faults, page, pages_with, sorted, sources, table, today,
};
use podbook::analysis::import::{Import, Why, import};
use podbook::record::{ImportChoices, RowClass};
use podbook::registry::build;
use podbook::report::import::import_report;

fn suppliers(import: &Import) -> Vec<Option<&str>> {
    let rows = import.rows.iter();
    rows.map(|row| row.facts.supplier.as_deref()).collect()
}

/// A mark is the cell right above it, in columns of words and days; the report counts them, and the note keeps the mark.
#[test]
fn a_ditto_mark_is_the_cell_above() {
    let lines = [
        "code|name|from|got",
        "V1|N. maxima|a friend|2020-05-01",
        "V2|\"|ditto|do.",
        "V3|〃|-\"-|''",
        "V4|N. truncata|a fair|as above",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let all_clear = import.rows.iter().all(|row| row.class == RowClass::Clean);
    assert!(all_clear, "{:#?}", import.rows);
    let friend = Some("a friend");
    assert_eq!(suppliers(&import), [friend, friend, friend, Some("a fair")]);
    let named = |row: &podbook::analysis::import::ImportRow| row.facts.label.clone();
    assert_eq!(named(&import.rows[2]).as_deref(), Some("N. maxima"));
    let came = import.rows.iter().map(|row| row.facts.acquired.as_deref());
    assert!(came.into_iter().all(|on| on == Some("2020-05-01")));
    let report = import_report(&import, &[]);
    let said = "Ditto marks are read as the cell right above them: 2 in `name`, 2 in `from` and 3 in `got`";
    assert!(
        report.cautions.iter().any(|of| of == said),
        "{:?}",
        report.cautions
    );
    let clones = brought(&tables, "()");
    assert!(
        page(&clones, "clones.ron").contains("from: ditto"),
        "{clones:?}"
    );
}

/// Above a mark must be a cell of the same column that says something; codes and sizes are never repeated.
#[test]
fn a_ditto_mark_that_stands_for_nothing_is_in_doubt() {
    let lines = [
        "code|name|from|size",
        "V1|\"|a friend|12 cm",
        "V2|N. maxima||\"",
        "V3|N. maxima|\"|",
        "\"|N. maxima|a fair|",
        "",
        "V5|N. maxima|\"|",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_adds_up(&import);
    for row in &import.rows {
        let marks = row.doubts.iter().filter(|of| of.why == Why::Ditto);
        assert_eq!(marks.count(), 1, "{row:#?}");
        assert_eq!(row.class, RowClass::Other, "{row:#?}");
    }
    assert_eq!(
        suppliers(&import),
        [Some("a friend"), None, None, Some("a fair"), None]
    );
    assert!(import.rows[0].facts.label.is_none());
    assert!(import.rows[3].facts.code.is_none());
}

/// Equal marks below unlike cells are two plants; a second run knows both again.
#[test]
fn rows_of_marks_are_equal_only_where_they_stand_for_the_same() {
    let lines = [
        "name|from|remarks",
        "N. maxima|a friend|",
        "\"|\"|small",
        "N. truncata|a fair|",
        "\"|\"|small",
    ];
    let tables = [table("a.csv", &lines)];
    let first = sorted(&tables);
    assert_eq!(first.coming().count(), 4, "{:#?}", first.rows);
    let changes = brought(&tables, "()");
    let sources = sources(&pages_with(&changes));
    let choices = ImportChoices::default();
    let again = import(&build(&sources).0, &tables, &choices, today());
    assert_eq!(again.coming().count(), 0, "{:#?}", again.rows);
}

const PLANTS: [&str; 4] = [
    "code|name",
    "V1|N. maxima",
    "V2|N. ventricosa",
    "V3|N. truncata",
];

/// What the page of a cross says of its parents.
fn parents(changes: &[podbook::recording::draft::PageChange], cross: &str) -> String {
    let text = page(changes, &format!("crosses/{cross}.ron"));
    let line = text.lines().find(|line| line.contains("parents:"));
    line.expect("parents")
        .trim()
        .trim_end_matches(',')
        .to_owned()
}

/// A plant is female or male, and a record with one plant for both parents is a fault that would keep the whole table out.
#[test]
fn a_selfed_plant_has_no_father_that_a_record_could_name() {
    let crosses = [
        "code|mother|father",
        "X20-01|V1|self",
        "X20-02|V1|Selfed",
        "X20-03|V1|⊗",
        "X20-04|V1|x self",
        "X20-05|V1 or V2|selfing",
        "X20-06||self",
        "X20-07|N. talangensis|self",
        "X20-08|V2|same",
        "X20-09|V2|V3",
        "X20-10|V1|\"",
    ];
    let pairs = ["cross|parents", "X21-01|V3 x self", "X21-02|V3 selfed"];
    let tables = [
        table("p.csv", &PLANTS),
        table("c.csv", &crosses),
        table("d.csv", &pairs),
    ];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let changes = brought(&tables, "()");
    let own = "parents: pollen_unknown(seed: \"V1\")";
    for (cross, expected) in [
        ("X20-01", own),
        ("X20-02", own),
        ("X20-03", own),
        ("X20-04", own),
        (
            "X20-05",
            "parents: seed_one_of(pollen: \"?\", seed: [\"V1\", \"V2\"])",
        ),
        ("X20-06", "parents: unknown"),
        (
            "X20-07",
            "parents: known(seed: \"talangensis\", pollen: \"talangensis\")",
        ),
        ("X20-08", "parents: pollen_unknown(seed: \"V2\")"),
        ("X20-10", "parents: known(seed: \"V1\", pollen: \"V3\")"),
        ("X21-01", "parents: pollen_unknown(seed: \"V3\")"),
        ("X21-02", "parents: pollen_unknown(seed: \"V3\")"),
    ] {
        assert_eq!(parents(&changes, cross), expected, "{cross}");
        let text = page(&changes, &format!("crosses/{cross}.ron"));
        assert!(!text.contains("witnessed"), "{text}");
    }
    let whys = |code: &str| -> Vec<Why> {
        let mut rows = import.rows.iter();
        let row = rows.find(|row| row.facts.code.as_deref() == Some(code));
        let doubts = row.expect("a row").doubts.iter();
        doubts.map(|of| of.why.clone()).collect()
    };
    assert_eq!(whys("X20-01"), [Why::Selfed]);
    assert_eq!(whys("X20-05"), [Why::ParentOneOf, Why::Selfed]);
    assert_eq!(whys("X20-07"), [Why::Selfed]);
    assert_eq!(whys("X21-02"), [Why::Selfed]);
    assert_eq!(whys("X20-08"), [Why::SameAsWhich]);
    assert_eq!(faults(&changes), Vec::<String>::new());
}
