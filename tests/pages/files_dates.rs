//! The tables of dates and lengths in `docs/files.md` say what the program reads.

use crate::fences::{code, table_rows};
use crate::sections::FILES;
use podbook::record::{Day, Hemisphere, Length, When};

fn part(heading: &str) -> &'static str {
    let (_, rest) = FILES.split_once(heading).expect("the heading");
    rest.split("\n#").next().expect("a part")
}

fn words(text: &str, hemisphere: Hemisphere) -> String {
    let Ok(when) = When::read(text, hemisphere) else {
        return "refused".into();
    };
    match (when.first, when.last) {
        (Day::FIRST, Day::LAST) => "any day".into(),
        (Day::FIRST, last) => format!("up to {last}"),
        (first, Day::LAST) => format!("from {first}"),
        (first, last) if first == last => first.to_string(),
        (first, last) => format!("{first} to {last}"),
    }
}

#[test]
fn the_table_of_dates_is_true() {
    let rows = table_rows(part("\n### Dates\n"));
    assert!(rows.len() > 25);
    for row in rows {
        let [written, north, south] = row[..] else {
            panic!("{row:?}")
        };
        let written = code(written);
        let read = words(written, Hemisphere::North);
        assert_eq!(read, north, "{written} in the north");
        let south = if south == "the same" { north } else { south };
        assert_eq!(
            words(written, Hemisphere::South),
            south,
            "{written} in the south"
        );
    }
}

#[test]
fn the_table_of_lengths_is_true() {
    let rows = table_rows(part("\n### Lengths\n"));
    assert!(rows.len() > 10);
    for row in rows {
        let [written, cm] = row[..] else {
            panic!("{row:?}")
        };
        let read = match Length::read(code(written)) {
            Err(_) => "refused".to_owned(),
            Ok(length) => length.cm().map_or("not known".to_owned(), |cm| {
                let exact = format!("{cm:.6}");
                exact.trim_end_matches('0').trim_end_matches('.').to_owned()
            }),
        };
        assert_eq!(read, cm, "{written}");
    }
}
