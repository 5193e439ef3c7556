//! A table as it is declared: heading, side and cell of a column in one place.

use podbook::report::{Cell, Table};

/// Code, readings, span with its limits.
type Row = (&'static str, u32, Option<f64>, Option<(f64, f64)>);

const ROWS: [Row; 2] = [
    ("X22-02-1", 3, Some(14.25), Some((13.0, 15.5))),
    ("X22-02-2", 0, None, None),
];

fn headings(table: &Table) -> Vec<&str> {
    let columns = table.columns.iter();
    columns.map(|column| column.heading.as_str()).collect()
}

#[test]
fn a_cell_stands_under_the_heading_it_was_declared_with() {
    let table: Table = Table::of(&ROWS)
        .titled("Spans")
        .more(5)
        .text("plant", |row| row.0)
        .figure("n", |row| row.1)
        .number("span cm", 1, |row| row.2)
        .into();
    assert_eq!(table.title.as_deref(), Some("Spans"));
    assert_eq!(table.more, 5);
    assert_eq!(headings(&table), ["plant", "n", "span cm"]);
    let first = ["X22-02-1".into(), Cell::Count(3), Cell::Number(14.25, 1)];
    assert_eq!(table.rows[0], first);
}

#[test]
fn what_is_not_known_is_missing_and_never_nought() {
    let table: Table = Table::of(&ROWS)
        .number("span cm", 1, |row| row.2)
        .limits(["from", "to"], 1, |row| row.3)
        .text("note", |_| None::<String>)
        .figure("n", |row| row.1)
        .into();
    let missing = || Cell::Missing;
    let second = [missing(), missing(), missing(), missing(), Cell::Count(0)];
    assert_eq!(table.rows[1], second);
}

#[test]
fn words_stand_to_the_left_and_figures_to_the_right() {
    let table: Table = Table::of(&ROWS)
        .text("plant", |row| row.0)
        .figure("share", |_| "12 %")
        .number("span cm", 1, |row| row.2)
        .limits(["from", "to"], 1, |row| row.3)
        .into();
    let right: Vec<bool> = table.columns.iter().map(|column| column.right).collect();
    assert_eq!(right, [false, true, true, true, true]);
}

#[test]
fn an_error_and_an_upper_limit_stay_beside_the_column_before_them() {
    let table: Table = Table::of(&ROWS)
        .number("span cm", 1, |row| row.2)
        .number("±", 1, |row| row.2)
        .beside()
        .limits(["from", "to"], 1, |row| row.3)
        .text("known by", |row| row.0)
        .beside()
        .into();
    let stays: Vec<bool> = table.columns.iter().map(|column| column.stays).collect();
    assert_eq!(stays, [false, true, false, true, true]);
    let limits = [Cell::Number(13.0, 1), Cell::Number(15.5, 1)];
    assert_eq!(table.rows[0][2..4], limits);
}

#[test]
fn a_column_left_out_leaves_out_its_cells() {
    let declared = |wanted: bool| -> Table {
        Table::of(&ROWS)
            .text("plant", |row| row.0)
            .when(wanted, |columns| {
                columns.figure("n", |row| row.1).text("note", |_| "")
            })
            .number("span cm", 1, |row| row.2)
            .into()
    };
    assert_eq!(headings(&declared(false)), ["plant", "span cm"]);
    assert_eq!(headings(&declared(true)), ["plant", "n", "note", "span cm"]);
    for table in [declared(false), declared(true)] {
        let filled = |row: &Vec<Cell>| row.len() == table.columns.len();
        assert!(table.rows.iter().all(filled));
        assert_eq!(table.rows[0].last(), Some(&Cell::Number(14.25, 1)));
    }
}

#[test]
fn a_column_for_each_year_is_filled_from_its_own_year() {
    let (years, rows) = ([2024_u32, 2025], [[7_u32, 8], [9, 10]]);
    let table: Table = Table::of(&rows)
        .each(years.iter().enumerate(), |columns, (at, year)| {
            columns.figure(year.to_string(), |row| row[at])
        })
        .into();
    assert_eq!(headings(&table), ["2024", "2025"]);
    let cells = |of: [u64; 2]| of.map(Cell::Count).to_vec();
    assert_eq!(table.rows, [cells([7, 8]), cells([9, 10])]);
}

#[test]
fn headings_of_other_programs_stand_as_they_are() {
    let cells = |of: [&str; 2]| of.map(Cell::from).to_vec();
    let table = Table::plain([">50 cm", "+ more"], [cells(["a", "b"])]);
    assert_eq!(headings(&table), [">50 cm", "+ more"]);
    assert!(!table.columns.iter().any(|of| of.right || of.stays));
}

#[test]
#[should_panic(expected = "a cell for every column")]
fn a_row_with_a_cell_too_few_is_refused() {
    Table::plain(["plant", "note"], [vec![Cell::from("X22-02-1")]]);
}
