//! Dates with two figures of the year, which may begin with the day, the month or the year.

use crate::tables::{assert_adds_up, chosen, sorted, table};
use podbook::analysis::import::Import;
use podbook::record::RowClass;
use podbook::report::import::import_report;

fn of(cells: &[&str], choices: &str) -> Import {
    let rows = cells
        .iter()
        .enumerate()
        .map(|(at, cell)| format!("V{at}|N. maxima|{cell}"));
    let lines: Vec<String> = std::iter::once("Code|Name|Got".to_owned())
        .chain(rows)
        .collect();
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    let import = chosen(&[table("a.csv", &lines)], choices);
    assert_adds_up(&import);
    import
}

/// The day and the class of each row.
fn read(import: &Import) -> Vec<(&str, RowClass)> {
    let rows = import.rows.iter();
    rows.map(|row| (row.facts.acquired.as_deref().unwrap_or(""), row.class))
        .collect()
}

/// With hyphens every order is asked for; a day that is not there, or still to come, is no reading.
#[test]
fn a_short_date_with_hyphens_may_begin_with_its_year() {
    let asked = RowClass::DateTwoWays;
    let cells = [
        "24-07-01", "19-05-03", "03-04-21", "31-12-21", "26-07-01", "05-05-05",
    ];
    let expected = [
        ("2001-07-24 to 2024-07-01", asked),
        ("2003-05-19 to 2019-05-03", asked),
        ("2003-04-21 to 2021-04-03", asked),
        ("31/12/2021", RowClass::Clean),
        ("26/7/2001", RowClass::Clean),
        ("2005-05-05", RowClass::Clean),
    ];
    let import = of(&cells, "()");
    let found = read(&import);
    assert_eq!(found[..4], expected[..4]);
    assert_eq!((found[4].1, found[5]), (expected[4].1, expected[5]));
    let whys = import_report(&import, &[]).doubts;
    assert_eq!(whys[2].why, "2021-04-03 or 2021-03-04 or 2003-04-21");
}

/// A choice of an order is for the dates that can be read so; others stay the range.
#[test]
fn each_order_can_be_chosen() {
    let cells = ["24-07-01", "03-04-21"];
    for (order, expected) in [
        ("day_first", ["2001-07-24", "2021-04-03"]),
        ("month_first", ["2001-07-24 to 2024-07-01", "2021-03-04"]),
        ("year_first", ["2024-07-01", "2003-04-21"]),
    ] {
        let choices = format!("(choices: [(class: date_two_ways, choose: {order})])");
        let import = of(&cells, &choices);
        let days: Vec<&str> = read(&import).into_iter().map(|of| of.0).collect();
        assert_eq!(days, expected, "{order}");
    }
    let choices = "(choices: [(class: date_two_ways, choose: month_first)])";
    let done: Vec<&str> = import_report(&of(&cells, choices), &[])
        .doubts
        .iter()
        .map(|of| of.done)
        .collect();
    assert_eq!(done, ["a range of both days", "month first"]);
}

/// With strokes the year comes last, unless the column writes it first in full, or any other order would be of the last
/// century.
#[test]
fn strokes_begin_with_a_year_only_where_the_column_shows_it() {
    let asked = RowClass::DateTwoWays;
    assert_eq!(
        read(&of(&["24/07/01", "25/03/21"], "()"))[0].1,
        RowClass::Clean
    );
    assert_eq!(
        read(&of(&["24/07/01", "2024-06-01"], "()"))[0].1,
        RowClass::Clean
    );
    for shown in ["2024/06/01", "23/11/30"] {
        let import = of(&["24/07/01", shown], "()");
        assert_eq!(
            read(&import)[0],
            ("2001-07-24 to 2024-07-01", asked),
            "{shown}"
        );
    }
    let cautions = import_report(&of(&["24/07/01", "2024/06/01"], "()"), &[]).cautions;
    let words = "1 date can be read only year first, and none only the other way. To read all of them so: --choose date_two_ways=year_first";
    assert!(cautions.iter().any(|of| of.contains(words)), "{cautions:?}");
}

/// A year in full beside dates with strokes shows no order of theirs.
#[test]
fn a_year_in_full_says_nothing_of_another_form() {
    let lines = [
        "Code|Name|Got",
        "V1|N. maxima|2019-05-03",
        "V2|N. maxima|03/04/21",
    ];
    let cautions = import_report(&sorted(&[table("a.csv", &lines)]), &[]).cautions;
    assert!(
        !cautions.iter().any(|of| of.contains("year first")),
        "{cautions:?}"
    );
}

/// Two dates of which the first leaves out what the second says are a range, where they can mean one thing only.
#[test]
fn two_dates_in_one_cell_are_a_range() {
    let unread = ("", RowClass::Other);
    let range = |text| (text, RowClass::Clean);
    for (cell, expected) in [
        ("10-14 April 2022", range("10 April 2022 to 14 April 2022")),
        ("10 – 14 April 22", range("10 April 2022 to 14 April 2022")),
        ("Aug-Sept 2022", range("Aug 2022 to Sept 2022")),
        (
            "28 March to 3 April 2022",
            range("28 March 2022 to 3 April 2022"),
        ),
        ("Nov '23-Jan '24", range("Nov 2023 to Jan 2024")),
        ("2019-2021", range("2019 to 2021")),
        ("Nov 23-Jan 24", unread),
        ("Nov-Jan 2024", unread),
        ("Nov 20-Dec 2022", unread),
        ("10-14", unread),
        ("14-April 2022", range("14-April 2022")),
        ("10-14 April", unread),
        ("10-14 April 2026", unread),
    ] {
        assert_eq!(read(&of(&[cell], "()")), [expected], "{cell}");
    }
}
