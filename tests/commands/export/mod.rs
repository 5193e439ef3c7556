//! `podbook export`: each form read back by a general-purpose reader.

#[path = "../../support/nursery.rs"]
pub mod nursery;
mod passport;
mod pedigree;
mod plants;
mod records;
mod workbook;

use crate::demo::demo;

/// A table as the `csv` crate reads it.
struct Rows {
    headings: Vec<String>,
    rows: Vec<Vec<String>>,
}

fn exported(question: &str) -> String {
    let told = demo(question);
    assert_eq!(told.exit, Some(0), "{told}");
    told.stdout
}

fn rows(question: &str) -> Rows {
    rows_of(&exported(question))
}

fn rows_of(text: &str) -> Rows {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let owned = |record: &csv::StringRecord| record.iter().map(str::to_owned).collect::<Vec<_>>();
    let headings = owned(reader.headers().expect("headings"));
    let rows = reader
        .records()
        .map(|row| owned(&row.expect("as many cells as headings")));
    Rows {
        rows: rows.collect(),
        headings,
    }
}

#[test]
fn what_cannot_be_written_is_refused() {
    for (question, words) in [
        (
            "export passport --json",
            "end FILE with .csv or .xlsx, or use --format",
        ),
        (
            "export records --format csv",
            "end FILE with .json, or use --format json",
        ),
        (
            "export passport --institute here",
            "such as XYZ001; found `here`",
        ),
        ("export pedigree X22-02", "is a cross, not a plant"),
        ("export passport Nope9", "no record has the code `Nope9`"),
    ] {
        let told = demo(question);
        assert_eq!(told.exit, Some(2), "{told}");
        assert!(told.stderr.contains(words), "{told}");
    }
}
