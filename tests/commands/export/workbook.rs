//! Workbooks, read back by `calamine`: cell for cell what the CSV of the same question says.

use super::rows_of;
use crate::bench_top::BenchTop;
use calamine::{Data, Reader, Xlsx, open_workbook};

/// The cells of a workbook; a number is one, everything else a text.
fn cells(path: &std::path::Path) -> Vec<Vec<Data>> {
    let mut book: Xlsx<_> = open_workbook(path).expect("a workbook");
    assert_eq!(book.sheet_names(), ["podbook"]);
    let sheet = book.worksheet_range("podbook").expect("a sheet");
    sheet.rows().map(<[Data]>::to_vec).collect()
}

/// An apostrophe keeps a text from being computed in CSV; a workbook needs none.
fn same(found: &Data, csv: &str) -> bool {
    match found {
        Data::Empty => csv.is_empty(),
        Data::Float(number) => csv.parse() == Ok(*number),
        Data::Int(number) => csv.parse() == Ok(*number),
        Data::String(text) => text == csv || csv.strip_prefix('\'') == Some(text),
        _ => false,
    }
}

fn compared(top: &BenchTop, asked: &[&str]) -> usize {
    let csv = top.run(&[&["export"], asked].concat());
    assert_eq!(csv.exit, Some(0), "{csv}");
    let wanted = rows_of(&csv.stdout);
    let mut bytes = Vec::new();
    for name in ["one.xlsx", "two.xlsx"] {
        let run = top.run(&[&["export"], asked, &["-o", name]].concat());
        assert_eq!(run.exit, Some(0), "{run}");
        bytes.push(std::fs::read(top.path().join(name)).expect("a file"));
    }
    assert!(bytes[0] == bytes[1], "the same question, other bytes");
    let found = cells(&top.path().join("one.xlsx"));
    assert_eq!(found.len(), wanted.rows.len() + 1);
    let mut numbers = 0;
    for (row, wanted) in found
        .iter()
        .zip(std::iter::once(&wanted.headings).chain(&wanted.rows))
    {
        for (at, wanted) in wanted.iter().enumerate() {
            let cell = row.get(at).unwrap_or(&Data::Empty);
            assert!(same(cell, wanted), "{cell:?} for {wanted:?}");
            numbers += usize::from(matches!(cell, Data::Float(_) | Data::Int(_)));
        }
    }
    numbers
}

#[test]
fn a_workbook_says_what_the_csv_says() {
    let top = BenchTop::sound();
    assert!(compared(&top, &["plants"]) > 0, "no number is a number");
    compared(&top, &["pedigree"]);
    compared(&top, &["passport"]);
}

/// Marks of XML, formulas and characters that nobody sees.
#[test]
fn text_of_the_records_is_text() {
    let top = BenchTop::with([
        ("registry.ron", r#"(genus: "Nepenthes", hemisphere: north)"#),
        (
            "clones.ron",
            "(clones: [(code: \"V1\", received: \"=HYPERLINK(\\\"x\\\") <b>&amp;\", note: \" +1 \\u{202e}\")])",
        ),
    ]);
    compared(&top, &["plants"]);
}
