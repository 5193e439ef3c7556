//! Cells in the place of a cross or of a code of one that are none: pairs, crosses in doubt, dates and years.

use crate::tables::{assert_adds_up, brought, page, sorted, table};
use podbook::analysis::import::Import;
use podbook::record::Holds;
use podbook::report::import::import_report;

const PLANTS: [&str; 4] = [
    "Code|Name",
    "V1|N. ventricosa",
    "V2|N. truncata",
    "V4|N. maxima",
];

/// What the rows of a table become beside those plants, and what is said of those in one class.
fn with_plants(lines: &[&str]) -> (Import, Vec<String>) {
    let import = sorted(&[table("plants.csv", &PLANTS), table("a.csv", lines)]);
    assert_adds_up(&import);
    let said = import_report(&import, &[]).doubts.into_iter();
    let said = said.map(|of| format!("{}: {}: {}", of.column, of.found, of.why));
    (import, said.collect())
}

/// `Date` beside the day of sowing and a count is that of the count; beside a size of plants it is that of the size, whoever
/// their parents are.
#[test]
fn a_bare_date_is_of_what_is_counted_or_measured() {
    let log = [
        "Cross|Sown|Date|Came up",
        "L22-01|2022-01-10|2022-03-01|3",
        "L22-02|2022-01-10|2022-05-01|1",
    ];
    let (import, _) = with_plants(&log);
    assert_eq!(import.tables[1].columns[2].holds, Holds::Counted);
    let changes = brought(&[table("a.csv", &log)], "()");
    let cross = page(&changes, "crosses/L22-01.ron");
    assert!(
        cross.contains("germinated: [(on: \"2022-03-01\", count: 3)]"),
        "{cross}"
    );
    let sizes = ["Plant|Mother|Father|Date|Span cm", "Q1|V1|V2|2024-06-01|12"];
    let (import, _) = with_plants(&sizes);
    assert_eq!(import.tables[1].columns[3].holds, Holds::Measured);
    let crosses = [
        "Cross|Mother|Father|Date|Span cm",
        "X24-01|V1|V2|2024-06-01|12",
    ];
    let (import, _) = with_plants(&crosses);
    assert_eq!(import.tables[1].columns[3].holds, Holds::Pollinated);
}
