//! Rows that lost their code, and parents written as a bare list of codes.

use crate::tables::{assert_adds_up, brought, chosen, pages_with, sorted, sources, table, today};
use podbook::analysis::import::{Why, import};
use podbook::record::{ImportChoices, RowClass};
use podbook::registry::build;
use podbook::report::import::import_report;

/// A row brought in with a code that comes again without it is no second plant, unless it is taken as one; a new row of
/// the same name is one, as long as the first row is there.
#[test]
fn a_row_without_its_code_is_asked_about() {
    let first = [
        "Code|Name|From",
        "K1|N. alata|a friend",
        "K2|N. maxima|a fair",
    ];
    let pages = brought(&[table("a.csv", &first)], "()");
    let kept = sources(&pages_with(&pages));
    let (registry, _) = build(&kept);
    let again = |lines: &[&str]| {
        let tables = [table("a.csv", lines)];
        let choices = ImportChoices::default();
        let sorted = import(&registry, &tables, &choices, today());
        assert_adds_up(&sorted);
        sorted.rows
    };
    let emptied = again(&[
        "Code|Name|From",
        "|N. alata|a friend",
        "K2|N. maxima|a fair",
    ]);
    assert_eq!(emptied[0].class, RowClass::NoPlant);
    assert!(!emptied[0].comes);
    assert_eq!(emptied[0].doubts[0].why, Why::LostCode("K1".to_owned()));
    assert_eq!(emptied[1].class, RowClass::OnRecord);
    let added = again(&[
        "Code|Name|From",
        "K1|N. alata|a friend",
        "K2|N. maxima|a fair",
        "|N. alata|a friend",
    ]);
    assert!(added[2].comes, "{:#?}", added[2]);
}

/// Which size a column holds is not guessed, also where the grower says that it holds readings.
#[test]
fn a_column_of_readings_names_its_trait() {
    let lines = ["Code|Name|Pitcher size", "V1|N. maxima|5 cm"];
    let choices = "(columns: [(heading: \"Pitcher size\", holds: reading)])";
    let import = chosen(&[table("a.csv", &lines)], choices);
    assert!(import.rows[0].facts.readings.is_empty());
    let report = import_report(&import, &[]);
    let said = "Column `Pitcher size` is to hold readings";
    let mut cautions = report.cautions.iter();
    assert!(
        cautions.any(|of| of.starts_with(said)),
        "{:?}",
        report.cautions
    );
}

/// Codes with a comma between them say neither "one of" nor "mixed".
#[test]
fn a_list_of_fathers_is_asked_about() {
    let lines = [
        "Code|Name|Mother|Father",
        "V1|N. maxima||",
        "V2|N. alata||",
        "V3|N. mira||",
        "C1||V1|V2, V3",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    let row = &import.rows[3];
    assert_eq!(row.class, RowClass::ParentUnknown);
    let codes = vec!["V2".to_owned(), "V3".to_owned()];
    assert_eq!(row.doubts[0].why, Why::SeveralCodes(codes));
}
