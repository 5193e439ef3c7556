//! Units of sizes in a column of their own, and in a second line of headings.

use crate::tables::{assert_adds_up, chosen, sorted, table};
use podbook::analysis::import::{Import, Why};
use podbook::record::{Holds, RowClass};
use podbook::report::import::import_report;

/// The readings of each row.
fn readings(import: &Import) -> Vec<Vec<&str>> {
    let rows = import.rows.iter();
    rows.map(|row| {
        row.facts
            .readings
            .iter()
            .map(|of| of.cell.as_str())
            .collect()
    })
    .collect()
}

/// The unit of a row is that of its size, and a choice for sizes without one does not touch it. A unit that is none leaves
/// the size out.
#[test]
fn a_column_of_units_is_read() {
    let lines = [
        "Code|Name|Size|Unit",
        "V1|N. maxima|150|mm",
        "V2|N. maxima|9|in",
        "V3|N. maxima|4|",
        "V4|N. maxima|4|hands",
        "V5|N. maxima|4 cm|in",
    ];
    let choices = "(choices: [(class: size_without_unit, choose: cm)])";
    let import = chosen(&[table("a.csv", &lines)], choices);
    assert_adds_up(&import);
    assert_eq!(
        readings(&import),
        [
            vec!["150 mm"],
            vec!["9 in"],
            vec!["4 cm"],
            vec![],
            vec!["4 cm"]
        ]
    );
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let clean = RowClass::Clean;
    assert_eq!(
        classes,
        [
            clean,
            clean,
            RowClass::SizeWithoutUnit,
            RowClass::Other,
            clean
        ]
    );
    let said = import_report(&import, &[]).doubts;
    let unread = said.last().expect("a doubt");
    assert_eq!(
        (unread.column.as_str(), unread.found.as_str()),
        ("Unit", "hands")
    );
}

/// Each of several sizes has the unit right behind it; a column of units that is of no one size is not read, and said so.
#[test]
fn a_unit_is_that_of_the_size_before_it() {
    let lines = ["Code|Name|Size|Unit|Pot|Units", "V1|N. maxima|150|mm|3|in"];
    let import = sorted(&[table("a.csv", &lines)]);
    let facts = &import.rows[0].facts;
    assert_eq!(readings(&import), [vec!["150 mm"]]);
    assert_eq!(facts.pot.as_deref(), Some("3 in"));
    let lines = ["Code|Unit|Name|Size|Pot", "V1|mm|N. maxima|150|3"];
    let import = sorted(&[table("a.csv", &lines)]);
    let column = &import.tables[0].columns[1];
    assert_eq!(
        (column.holds, import.rows[0].class),
        (Holds::NotRead, RowClass::SizeWithoutUnit)
    );
    let cautions = import_report(&import, &[]).cautions;
    assert!(
        cautions[0].contains("Columns not read") && cautions[0].contains("Unit"),
        "{cautions:?}"
    );
}

/// A second line of headings with nothing but units; a plant sexed `m` is no such line.
#[test]
fn a_line_of_units_below_the_headings_is_read() {
    let lines = ["Code|Name|Size|Pot", "||(cm)|(in)", "V1|N. maxima|15|3"];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_adds_up(&import);
    assert_eq!(import.tables[0].headings, 2);
    assert_eq!(readings(&import), [vec!["15 cm"]]);
    assert_eq!(import.rows[0].facts.pot.as_deref(), Some("3 in"));
    let lines = ["Code|Name|Sex", "||m", "V1|N. maxima|m"];
    assert_eq!(sorted(&[table("a.csv", &lines)]).rows.len(), 2);
}

/// Where commas stand before decimals, `1.200` may be twelve hundred: it is asked about. Without such a comma it is one and a
/// fifth, as it always was.
#[test]
fn a_point_among_decimal_commas_is_asked_about() {
    let lines = |first: &str| {
        let first = format!("V1|N. maxima|{first}");
        let lines = [
            "Code|Name|Size (cm)",
            &first,
            "V2|N. lowii|1.200",
            "V3|N. mira|1.2",
        ];
        sorted(&[table("a.csv", &lines)])
    };
    let import = lines("24,5");
    assert_eq!(import.rows[1].doubts[0].why, Why::PointOrThousand);
    assert_eq!(import.rows[1].class, RowClass::Other);
    let cells: Vec<usize> = readings(&import).iter().map(Vec::len).collect();
    assert_eq!(cells, [1, 0, 1]);
    assert_eq!(lines("24.5").count(RowClass::Clean), 3);
}
