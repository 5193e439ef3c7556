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
    assert_eq!(emptied[0].doubts[0].why, Why::LooksLike("K1".to_owned()));
    assert_eq!(emptied[1].class, RowClass::OnRecord);
    let added = again(&[
        "Code|Name|From",
        "K1|N. alata|a friend",
        "K2|N. maxima|a fair",
        "|N. alata|a friend",
    ]);
    assert!(added[2].comes, "{:#?}", added[2]);
}

/// What a second run makes of a table without codes: which rows come, and what they look like.
fn again(name: &str, before: &[&str], after: &[&str]) -> Vec<Option<String>> {
    let pages = brought(&[table("a.csv", before)], "()");
    let kept = sources(&pages_with(&pages));
    let (registry, _) = build(&kept);
    let choices = ImportChoices::default();
    let sorted = import(&registry, &[table(name, after)], &choices, today());
    assert_adds_up(&sorted);
    let cautions = import_report(&sorted, &[]).cautions;
    let words = "brought in before and are not there any more";
    assert!(cautions.iter().any(|of| of.contains(words)), "{cautions:?}");
    let looks_like = sorted.rows.iter().map(|row| {
        let why = row.doubts.first().map(|of| &of.why);
        match why {
            Some(Why::LooksLike(code)) => Some(code.clone()),
            Some(Why::BroughtInBefore) => None,
            other => panic!("{other:?}: {row:?}"),
        }
    });
    looks_like.collect()
}

/// A row without a code that was edited is no second plant, cross or packet: it is asked about, and named by the record that
/// has no row any more.
#[test]
fn an_edited_row_without_a_code_is_asked_about() {
    let founders = [
        "Name|From|Got|Size",
        "N. lowi|a|2019|12",
        "N. maxima|a|2019|13 cm",
    ];
    let edited = [founders[0], "N. lowii|a|2019|12 cm", founders[2]];
    let found = again("a.csv", &founders, &edited);
    assert_eq!(found, [Some("Low1".to_owned()), None]);
    let crosses = [
        "Mother|Father|Pollinated|Pods|Seeds",
        "V1|V2|2020-05-01|1|40",
        "V7|V8||1|12",
    ];
    let edited = [crosses[0], "V1|V2|2020-05-01|1|44", "V7|V8|2020-06|1|12"];
    let found = again("a.csv", &crosses, &edited);
    assert_eq!(found, [Some("X20-01".to_owned()), Some("XX-01".to_owned())]);
    let packets = ["Label|From|Seeds|Sown", "N. lowii|swap|40|"];
    let found = again(
        "a.csv",
        &packets,
        &[packets[0], "N. lowii|swap|40|2020-01-01"],
    );
    assert_eq!(found.len(), 1, "{found:?}");
    let seedlings = ["Cross|Place|Pot", "X16-01|tent|7 cm", "X16-01|tent|9 cm"];
    let edited = [seedlings[0], seedlings[1], "X16-01|tent|10 cm"];
    let found = again("a.csv", &seedlings, &edited);
    assert_eq!(found, [None, Some("X16-01-2".to_owned())]);
}

/// A further column, another heading and another name of the file double no table.
#[test]
fn a_table_that_was_changed_as_a_whole_is_not_doubled() {
    let before = ["Name|From|Got", "N. lowii|a|2019", "N. maxima|b|2020"];
    let wider = [
        "Name|From|Got|Place",
        "N. lowii|a|2019|tent",
        "N. maxima|b|2020|tent",
    ];
    let headed = ["Name|Supplier|Got", before[1], before[2]];
    for (name, after) in [
        ("a.csv", &wider[..]),
        ("a.csv", &headed),
        ("b.csv", &before),
    ] {
        let found = again(name, &before, after);
        assert_eq!(found, [Some("Low1".to_owned()), Some("Max1".to_owned())]);
    }
}

/// A row that has half of the cells of a lost one, and not its rarest, is of that one, wherever it stands now.
#[test]
fn half_of_the_cells_are_enough() {
    let head = "Name|From|Got|Place";
    let before = [head, "N. lowii|a|2019|tent", "N. maxima|b|2020|tent"];
    let after = [head, "N. mira|b|2021|tent", "N. alata|a|2021|tent"];
    let found = again("a.csv", &before, &after);
    assert_eq!(found, [Some("Max1".to_owned()), Some("Low1".to_owned())]);
}

/// A new row beside those that are there is new, and a row that is taken comes in.
#[test]
fn a_new_row_without_a_code_comes_in() {
    let before = ["Name|From|Got", "N. lowii|a|2019"];
    let pages = brought(&[table("a.csv", &before)], "()");
    let kept = sources(&pages_with(&pages));
    let (registry, _) = build(&kept);
    let added = ["Name|From|Got", "N. lowii|a|2019", "N. lowii|a|2021"];
    let edited = ["Name|From|Got", "N. lowii|a|2021"];
    for (lines, choices) in [
        (&added[..], "()"),
        (
            &edited,
            r#"(rows: [(table: "a.csv", row: 2, choose: take)])"#,
        ),
    ] {
        let choices = ImportChoices::read(choices).expect("choices");
        let sorted = import(&registry, &[table("a.csv", lines)], &choices, today());
        assert_eq!(sorted.coming().count(), 1, "{:#?}", sorted.rows);
    }
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
