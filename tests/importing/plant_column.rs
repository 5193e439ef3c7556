//! A column headed `Plant`: names in one list, codes in another.

use crate::tables::{chosen, sorted, table};
use podbook::analysis::import::Why;
use podbook::record::RowClass;
use podbook::report::import::import_report;

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

/// Beside the codes of plants a column of tags that can be no codes gives none and takes none away: it stays in the note,
/// and the report says that it is not read.
#[test]
fn tags_beside_codes_are_no_codes() {
    let lines = [
        "Tag|Plant|Sold to|Sold",
        "vent x spath|X20-01-2|Anna|2023-10-02",
        "trunc 'Red'|X20-01-3|Bo|2023-10-02",
    ];
    let import = sorted(&[table("sold.csv", &lines)]);
    let codes = import.rows.iter().map(|row| row.facts.code.as_deref());
    let codes: Vec<Option<&str>> = codes.collect();
    assert_eq!(codes, [Some("X20-01-2"), Some("X20-01-3")]);
    let report = import_report(&import, &[]);
    assert!(report.doubts.iter().all(|of| of.column != "Tag"));
    let words = "Columns not read, their cells only kept in the notes: Tag.";
    assert!(
        report.cautions[0].starts_with(words),
        "{:?}",
        report.cautions
    );
    // Of two columns of codes the first counts, and a cell of the second that can be none becomes none.
    let lines = ["Code|Tag", "A1|B1", "A2|B2", "A3|big one"];
    let import = sorted(&[table("a.csv", &lines)]);
    let doubts = import.rows[2].doubts.iter();
    let mut changed = doubts.filter(|of| matches!(of.why, Why::CodeChanged(_)));
    assert_eq!(changed.next(), None);
}

/// A piece of a plant is no plant of its own: its code says so, or a column does.
#[test]
fn a_piece_is_asked_about() {
    let lines = [
        "Code|Name|Cutting of",
        "V1|N. ventricosa|",
        "V1-b|N. ventricosa|V1",
        "V7|N. ventricosa|V1",
        "V1-red|N. ventricosa|",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let (clean, other) = (RowClass::Clean, RowClass::Other);
    assert_eq!(classes, [clean, RowClass::CodeTaken, other, clean]);
    let piece = Why::PieceOf("V1".to_owned());
    assert!(
        import.rows[1..3]
            .iter()
            .all(|row| row.doubts[0].why == piece)
    );
}

/// A code in brackets or behind a word of doubt is asked about, and so is one with what became of the plant: such a cell is no
/// code, and no plant that is here.
#[test]
fn a_code_with_more_than_a_code_is_asked_about() {
    let doubted = |code: &str| Some(Why::CodeDoubted(code.to_owned()));
    let cases = [
        ("(V2)", doubted("V2")),
        ("[V2]", doubted("V2")),
        ("(V2?)", doubted("V2")),
        ("probably V2", doubted("V2")),
        ("7 dead", Some(Why::EndInCode)),
        ("7 and 8 sold to Ann 3/5", Some(Why::EndInCode)),
        ("sold 7, 8", Some(Why::EndInCode)),
        ("2)", None),
        ("V 2", None),
        ("V2 big", None),
    ];
    for (cell, why) in cases {
        let row = format!("{cell}|N. maxima");
        let tables = [table("a.csv", &["Code|Name", "V1|N. alata", &row])];
        let import = sorted(&tables);
        let row = &import.rows[1];
        let taken = chosen(&tables, "(choices: [(class: no_plant, choose: take)])");
        assert_eq!(taken.rows[1].comes, why != Some(Why::EndInCode), "{cell}");
        let doubts = row.doubts.iter().filter(|of| of.class == RowClass::NoPlant);
        let found: Vec<&Why> = doubts.map(|of| &of.why).collect();
        assert_eq!(
            (found, row.comes),
            (why.iter().collect(), why.is_none()),
            "{cell}"
        );
    }
}
