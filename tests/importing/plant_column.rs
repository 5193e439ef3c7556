//! A column headed `Plant`: names in one list, codes in another.

use crate::tables::{sorted, table};

/// Codes and labels of the rows of a table.
fn codes_and_labels(lines: &[&str]) -> Vec<(Option<String>, Option<String>)> {
    let import = sorted(&[table("plants.csv", lines)]);
    let facts = import.rows.into_iter().map(|row| row.facts);
    facts.map(|of| (of.code, of.label)).collect()
}

fn both(code: &str, label: &str) -> (Option<String>, Option<String>) {
    (Some(code.to_owned()), Some(label.to_owned()))
}

#[test]
fn beside_a_column_of_codes_it_holds_the_names() {
    let text = [
        "Code|Plant|From",
        "A1|N. ventricosa|c",
        "A2|truncata?|c",
        "A7|Red, thing|c",
    ];
    let expected = [
        both("A1", "N. ventricosa"),
        both("A2", "truncata?"),
        both("A7", "Red, thing"),
    ];
    assert_eq!(codes_and_labels(&text), expected);
    let text = ["Code|Plant|From", "A1|N. ventricosa|c", "Total|12|"];
    assert_eq!(codes_and_labels(&text)[0], both("A1", "N. ventricosa"));
}

#[test]
fn alone_it_holds_what_most_of_its_cells_are() {
    let text = [
        "Plant|From|Got",
        "N. ventricosa|c|2020",
        "N. maxima|c|2020",
        "Red thing|c|2020",
    ];
    let labels: Vec<_> = codes_and_labels(&text)
        .into_iter()
        .map(|(_, of)| of)
        .collect();
    let labels: Vec<Option<&str>> = labels.iter().map(Option::as_deref).collect();
    assert_eq!(
        labels,
        [Some("N. ventricosa"), Some("N. maxima"), Some("Red thing")]
    );
    let text = ["Plant|From|Got", "A1|c|2020", "A2|c|2020", "A3b|c|2020"];
    let codes: Vec<_> = codes_and_labels(&text)
        .into_iter()
        .map(|(of, _)| of)
        .collect();
    let codes: Vec<Option<&str>> = codes.iter().map(Option::as_deref).collect();
    assert_eq!(codes, [Some("A1"), Some("A2"), Some("A3b")]);
}
