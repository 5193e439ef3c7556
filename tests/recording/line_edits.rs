//! The lines in which two texts differ lead from the one to the other, and those of long texts take no square of the lines.

use podbook::record::JournalEdit;
use podbook::recording::line_edits::edits;

/// Rows with codes, and between them rows that are alike.
fn rows(of: impl Iterator<Item = usize>, reading: &str) -> String {
    let row = |row| match row % 10 {
        0 => "    ],\n".to_owned(),
        _ => format!("        [\"{row}\", \"{reading}\"],\n"),
    };
    of.map(row).collect()
}

/// The later text made of the earlier one.
fn applied(was: &str, edits: &[JournalEdit]) -> String {
    let (mut text, mut copied) = (String::new(), 0);
    for edit in edits {
        text.push_str(&was[copied..edit.at]);
        assert!(was[edit.at..].starts_with(&edit.was));
        text.push_str(&edit.now);
        copied = edit.at + edit.was.len();
    }
    text + &was[copied..]
}

/// What the shortest difference took the square of the rows for: as many steps as there are pairs of them.
#[test]
fn a_row_put_in_among_others_that_changed_is_one_edit_among_many_rows() {
    let was = rows(0..60_000, "4.5");
    let now = rows(0..30_000, "4.6") + "new\n" + &rows(30_000..60_000, "4.6");
    assert_eq!(applied(&was, &edits(&was, &now)), now);
    assert_eq!(applied(&now, &edits(&now, &was)), was);
}

#[test]
fn distant_edits_of_a_long_text_stay_apart() {
    let was = rows(0..60_000, "4.5");
    let head = rows(0..5, "4.5") + "put in\n" + &rows(5..100, "4.5");
    let tail = rows(103..59_990, "4.5") + "last\n" + &rows(59_991..60_000, "4.5");
    let now = head + &tail;
    let found = edits(&was, &now);
    assert_eq!(applied(&was, &found), now);
    assert_eq!(found.len(), 3, "{found:?}");
}

#[test]
fn moved_and_repeated_rows_lead_back() {
    let block = |from: usize| rows(from..from + 700, "4.5");
    let was = [block(0), block(1_000), block(2_000), block(0)].concat();
    let now = [block(2_000), block(1_000), "end".to_owned(), block(0)].concat();
    assert_eq!(applied(&was, &edits(&was, &now)), now);
    assert_eq!(applied(&was, &edits(&was, "")), "");
    assert_eq!(applied("", &edits("", &now)), now);
    assert!(edits(&was, &was).is_empty());
}
