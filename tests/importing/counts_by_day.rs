//! Counts of seedlings in columns headed by their days.

use crate::tables::{assert_adds_up, brought, chosen, faults, page, sorted, table};
use podbook::record::{Holds, RowClass};

const LINES: [&str; 3] = [
    "Cross|Sown|Seeds|2021-10-30|Germ. 2021-11-30|Came up 2021-12-30",
    "X21-01|2021-09-14|60|12|31|38",
    "X21-02|2021-09-14|40|0||",
];

/// Each count has its day, and a blank cell is none.
#[test]
fn every_count_has_the_day_of_its_heading() {
    let tables = [table("g.csv", &LINES)];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let germinated = import.tables[0].columns.iter();
    assert_eq!(
        germinated
            .filter(|of| of.holds == Holds::Germinated)
            .count(),
        3
    );
    let changes = brought(&tables, "()");
    let first = page(&changes, "crosses/X21-01.ron");
    let counts = "germinated: [(on: \"2021-10-30\", count: 12), (on: \"2021-11-30\", count: 31), (on: \"2021-12-30\", count: 38)]";
    assert!(first.contains(counts), "{first}");
    let second = page(&changes, "crosses/X21-02.ron");
    assert!(
        second.contains("germinated: [(on: \"2021-10-30\", count: 0)]"),
        "{second}"
    );
    assert_eq!(faults(&changes), Vec::<String>::new());
}

/// A day alone heads counts only beside a day of sowing, and of whole numbers; else the grower says what it holds, and the
/// day stays that of the heading.
#[test]
fn a_day_alone_is_not_guessed_without_a_sowing() {
    let lines = ["Cross|2021-12-30", "X21-01|38"];
    let column = &sorted(&[table("g.csv", &lines)]).tables[0].columns[1];
    assert_eq!(column.holds, Holds::NotRead);
    let sizes = ["Cross|Sown|2021-12-30", "X21-01|2021-09-14|3.5"];
    let column = &sorted(&[table("g.csv", &sizes)]).tables[0].columns[2];
    assert_eq!(column.holds, Holds::NotRead);
    let choices = "(columns: [(heading: \"2021-12-30\", holds: germinated)])";
    let import = chosen(&[table("g.csv", &lines)], choices);
    assert_eq!(import.rows[0].class, RowClass::CrossNotListed);
    let expected = [("2021-12-30".to_owned(), 38)];
    assert_eq!(import.rows[0].facts.counts, expected);
}
