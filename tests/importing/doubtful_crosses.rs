//! Cells in the place of a cross or of a code of one that are none: pairs, crosses in doubt, dates and years.

use crate::tables::{assert_adds_up, brought, faults, page, sorted, table};
use podbook::analysis::import::{Import, Kind};
use podbook::record::{Holds, RowClass};
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

/// A seedling whose cross is in doubt is no plant that came from elsewhere, and two such are not one.
#[test]
fn a_cross_in_doubt_makes_no_founder() {
    let (import, said) = with_plants(&[
        "Cross|No|Size",
        "X16-01|1|4 cm",
        "X16-02|1|5 cm",
        "X16-01 or X16-02|3|6 cm",
        "X16-02?|3|7 cm",
        "X16-01/X16-02|4|7 cm",
        "X16-01 (self)|5|7 cm",
    ]);
    let rows = &import.rows[5..];
    assert!(
        rows.iter()
            .all(|row| !row.comes && row.class == RowClass::NoPlant)
    );
    let one_of = "a seedling of one of several crosses: write the code of one, and then `one_of` on its page for the pods it may be of";
    for words in [
        format!("Cross: X16-01 or X16-02: {one_of}"),
        "Cross: X16-02?: X16-02, in doubt in the table: write the code without the mark if it is right".to_owned(),
        format!("Cross: X16-01/X16-02: {one_of}"),
        "Cross: X16-01 (self): no such cross on record or in the tables".to_owned(),
    ] {
        assert!(said.contains(&words), "{words}: {said:#?}");
    }
}

/// Among codes of crosses a pair is that of the parents of the plant, as in a column of formulas; and a code with other signs
/// is that which the cross gets.
#[test]
fn a_pair_and_a_code_with_other_signs_are_read() {
    let lines = [
        "Cross|No|Name",
        "X16-01|1|",
        "X16-01|2|",
        "X16 02|1|",
        "V1 x V2|11|N. lowii",
        "V1 x V2|12|",
    ];
    let (import, said) = with_plants(&lines);
    let rows = &import.rows[3..];
    assert_eq!(
        rows[2].kind,
        Kind::Seedling {
            cross: "X16-02".to_owned(),
            number: Some("1".to_owned())
        }
    );
    assert!(matches!(rows[4].kind, Kind::SeedlingOf(_)), "{:?}", rows[4]);
    assert_eq!(rows[3].class, RowClass::Contradiction, "{said:#?}");
    let changes = brought(
        &[table("plants.csv", &PLANTS), table("a.csv", &lines)],
        "()",
    );
    let cross = page(&changes, "crosses/XX-01.ron");
    assert!(
        cross.contains("known(seed: \"V1\", pollen: \"V2\")"),
        "{cross}"
    );
    assert!(cross.contains("nickname: \"12\""), "{cross}");
    assert_eq!(faults(&changes), Vec::<String>::new());
}

/// `3-9` that a spreadsheet made a date is no seedling, no code and no cross of its own; a seedling of a cross that is listed
/// may be called so.
#[test]
fn a_date_in_the_place_of_a_code_is_asked_about() {
    for lines in [
        ["Cross|No|Size", "X16-01|1|4 cm", "X16-01|2024-09-03|6 cm"],
        ["Cross|No|Size", "X16-01|1|4 cm", "X16-01|3-Sep|6 cm"],
        ["Cross|No|Size", "X16-01|1|4 cm", "2024-01-20|2|6 cm"],
        [
            "Code|Name|Size",
            "A1|N. maxima|4 cm",
            "2024-05-03|N. lowii|6 cm",
        ],
        ["Code|Name|Size", "A1|N. maxima|4 cm", "2024-05-03||6 cm"],
    ] {
        let (import, said) = with_plants(&lines);
        let row = &import.rows[4];
        assert_eq!(
            (row.class, row.comes),
            (RowClass::NoPlant, false),
            "{said:#?}"
        );
        let words = "a date, which spreadsheets make of a range such as 4-6";
        assert!(said.iter().any(|of| of.ends_with(words)), "{said:#?}");
    }
    let lines = [
        "Cross|No|Size",
        "2019-03|2019-03-11|4 cm",
        "2019-03|12|6 cm",
    ];
    let (import, said) = with_plants(&lines);
    assert!(import.rows[3..].iter().all(|row| row.comes), "{said:#?}");
}

/// A year above the crosses of that year is a title, and a code alone under `Cross` beside parents is that of a cross.
#[test]
fn a_year_among_crosses_is_a_title() {
    let (import, said) = with_plants(&[
        "Cross|Mother|Father",
        "2016||",
        "X16-01|V1|V2",
        "X16-02||",
        "2017||",
        "X17-01|V1|V4",
    ]);
    let rows = &import.rows[3..];
    let classes: Vec<RowClass> = rows.iter().map(|row| row.class).collect();
    let (clean, none) = (RowClass::Clean, RowClass::NoPlant);
    assert_eq!(
        classes,
        [none, clean, RowClass::ParentUnknown, none, clean],
        "{said:#?}"
    );
    assert_eq!(rows[2].kind, Kind::Cross);
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

/// A bare `Date` that may be the day of the pollination as well as that of the count is asked about, and the choice holds.
#[test]
fn a_bare_date_between_two_stages_is_asked_about() {
    let cases = [
        ("Cross|Mother|Father|Date|Sown|Came up", Holds::Pollinated),
        (
            "Cross|Mother|Father|Date|Sown|Came up|Counted",
            Holds::Pollinated,
        ),
        (
            "Cross|Mother|Father|Sown|Date|Came up|Counted",
            Holds::Pollinated,
        ),
        ("Cross|Mother|Father|Sown|Date|Came up", Holds::NotRead),
        ("Cross|Sown|Mother|Father|Came up|Date", Holds::NotRead),
        ("Cross|Date|Sown|Came up", Holds::NotRead),
        ("Cross|Pollinated|Date|Sown|Came up", Holds::Counted),
        (
            "Cross|Mother|Father|Pollinated|Sown|Date|Came up",
            Holds::Counted,
        ),
    ];
    for (head, holds) in cases {
        let (import, _) = with_plants(&[head, "X21-01|2021-05-01|2021-05-01"]);
        let columns = &import.tables[1].columns;
        let date = columns.iter().find(|of| of.heading == "Date");
        assert_eq!(date.map(|of| of.holds), Some(holds), "{head}");
    }
    let log = [
        "Cross|Mother|Father|Sown|Date|Came up",
        "X21-01|V1|V2|2021-05-01|2021-08-01|9",
    ];
    let (import, said) = with_plants(&log);
    let row = &import.rows[3];
    assert_eq!((row.class, row.comes), (RowClass::Other, true));
    assert_eq!((&row.facts.pollinated, &row.facts.counted), (&None, &None));
    let words = "the day of the pollination, or the day seedlings were counted? Say in import.ron what the column holds";
    assert!(said.iter().any(|of| of.ends_with(words)), "{said:#?}");
    let chosen = "(columns: [(heading: \"Date\", holds: counted)])";
    let changes = brought(&[table("a.csv", &log)], chosen);
    let cross = page(&changes, "crosses/X21-01.ron");
    let count = "germinated: [(on: \"2021-08-01\", count: 9)]";
    assert!(cross.contains(count), "{cross}");
}
