//! Headings that growers write, headings that few of are known, and columns that are left out.

use crate::bench_top::BenchTop;
use crate::tables::{
    assert_adds_up, brought, chosen, page, pages_with, sorted, sources, table, today,
};
use podbook::record::{Holds, RowClass};
use podbook::report::import::import_report;

/// A day in a column that does not say how a plant went is that of what its status says.
#[test]
fn the_day_goes_with_what_the_status_says() {
    for heading in ["Date", "Date gone", "date left", "Gone on"] {
        let head = format!("Code|Name|{heading}|Status|To");
        let lines = [
            head.as_str(),
            "V1|N. ventricosa|2020-08-12|died|",
            "V2|N. truncata|2021-05-01|given away|a neighbour",
            "V3|N. alata|2021-05-01|died 2019|",
            "V4|N. alata|2021-05-01|alive|",
            "V5|N. alata|2021-05-01||",
        ];
        let tables = [table("gone.csv", &lines)];
        let import = sorted(&tables);
        assert_adds_up(&import);
        let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
        let (clean, asked) = (RowClass::Clean, RowClass::Contradiction);
        assert_eq!(
            classes,
            [clean, clean, asked, asked, RowClass::Other],
            "{heading}"
        );
        let changes = brought(&tables, "(choices: [(class: contradiction, choose: take)])");
        let clones = page(&changes, "clones.ron");
        for fate in [
            "fate: died(on: \"2020-08-12\")",
            "fate: given(on: \"2021-05-01\", to: \"a neighbour\")",
            "fate: died(on: \"2019\")",
        ] {
            assert!(clones.contains(fate), "{heading}: {fate}\n{clones}");
        }
        assert!(!clones.contains("sold("), "{clones}");
    }
}

/// Words in brackets behind a death are why; a date in them is when.
#[test]
fn words_in_brackets_are_the_cause() {
    let lines = [
        "Code|Name|Status",
        "V1|N. maxima|dead (slugs)",
        "V2|N. maxima|died (rot) 2020",
        "V3|N. maxima|culled (too slow)",
        "V4|N. maxima|died (2021)",
        "V5|N. maxima|still here",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert!(
        import.rows.iter().all(|row| row.class == RowClass::Clean),
        "{:#?}",
        import.rows
    );
    let changes = brought(&tables, "()");
    let clones = page(&changes, "clones.ron");
    for fate in [
        "died(on: \"?\", cause: \"slugs\")",
        "died(on: \"2020\", cause: \"rot\")",
        "culled(on: \"?\", reason: \"too slow\")",
        "died(on: \"2021\")",
    ] {
        assert!(clones.contains(fate), "{fate}\n{clones}");
    }
}

/// Question marks are no name.
#[test]
fn question_marks_are_no_name() {
    let tables = [table("u.csv", &["Code|Name", "X1|???", "X2|unknown"])];
    let import = sorted(&tables);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    assert_eq!(classes, [RowClass::Other; 2]);
    let changes = brought(&tables, "()");
    let clones = page(&changes, "clones.ron");
    assert_eq!(
        clones
            .matches("received: \"?\", confidence: unknown")
            .count(),
        2,
        "{clones}"
    );
}

#[test]
fn a_row_of_headings_is_known_by_one_of_them() {
    let lines = [
        "Mark|From|Remark on it",
        "P1|swap|big",
        "P2|a fair|small",
        "|a fair|red",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_eq!(import.tables[0].headed, Some(1));
    // Without digits below, the first row may be a plant like the others.
    let plain = ["Mark|From", "Red|swap", "Blue|a fair"];
    assert_eq!(sorted(&[table("a.csv", &plain)]).tables[0].headed, None);
    let words = [
        "Tag #",
        "What it is",
        "Where from",
        "When I got it",
        "How big",
        "Sex?",
    ];
    let lines = [
        words.join("|"),
        "N01|N. maxima|a fair|2019|9 in|f".to_owned(),
    ];
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    let holds: Vec<Holds> = sorted(&[table("a.csv", &lines)]).tables[0]
        .columns
        .iter()
        .map(|of| of.holds)
        .collect();
    let expected = [
        Holds::Code,
        Holds::Label,
        Holds::Supplier,
        Holds::Acquired,
        Holds::Reading,
        Holds::Sex,
    ];
    assert_eq!(holds, expected);
}

/// Codes that come twice leave their column unread, and that is said; the grower can say what it holds.
#[test]
fn a_column_of_codes_left_out_is_said() {
    let lines = [
        "Peg|Name",
        "N01|N. maxima",
        "N02|N. alata",
        "N03|N. truncata",
        "N03|N. ventricosa",
    ];
    let tables = [table("a.csv", &lines)];
    let cautions = import_report(&sorted(&tables), &[]).cautions;
    let words = "Column `Peg` looks like codes and is not read, because N03 comes more than once";
    assert!(
        cautions.iter().any(|of| of.starts_with(words)),
        "{cautions:?}"
    );
    let import = chosen(&tables, "(columns: [(heading: \"Peg\", holds: code)])");
    assert_eq!(import.count(RowClass::CodeTaken), 1);
    let cautions = import_report(&import, &[]).cautions;
    assert!(
        !cautions.iter().any(|of| of.contains("looks like codes")),
        "{cautions:?}"
    );
}

#[test]
fn a_faulty_file_of_choices_names_the_page_that_lists_them() {
    let top = BenchTop::empty()
        .file("a.csv", "code,name\nV1,N. maxima\n")
        .file(
            "import.ron",
            "(columns: [(heading: \"when\", holds: arrival)])",
        );
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let run = top.run(&["import", "a.csv", "--registry", "mine"]);
    assert!(
        run.stderr.contains("docs/files.md lists what it may hold"),
        "{run}"
    );
}

/// A day in a heading is read as one in a cell is: vague, or one of two by the choice for such dates.
#[test]
fn a_day_in_a_heading_is_read_as_in_a_cell() {
    let lines = [
        "No|Name|Span May 2022 cm|Span 1.6.2023 (cm)|Span, 13.6.2024|Span (2025-05-01)",
        "V1|N. ventricosa|2.5|7|8 cm|9 cm",
        "V2|N. ventricosa|2.5|||",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    assert_eq!(classes, [RowClass::DateTwoWays, RowClass::Clean]);
    let day_first = "(choices: [(class: date_two_ways, choose: day_first)])";
    for (choices, two_ways) in [
        ("()", "2023-01-06 to 2023-06-01"),
        (day_first, "2023-06-01"),
    ] {
        let changes = brought(&tables, choices);
        let clones = page(&changes, "clones.ron");
        for on in ["May 2022", two_ways, "13.6.2024", "2025-05-01"] {
            assert!(clones.contains(&format!("on: \"{on}\"")), "{on}: {clones}");
        }
    }
    // A choice names what it holds, and the day stays that of the heading.
    let lines = ["No|Name|Across May 2022", "V1|N. ventricosa|2.5 cm"];
    let choices = "(columns: [(heading: \"Across May 2022\", holds: reading)])";
    let import = chosen(&[table("a.csv", &lines)], choices);
    assert_eq!(
        import.rows[0].facts.readings[0].on.as_deref(),
        Some("May 2022")
    );
}

/// A sheet that is named or titled by a cross has its code nowhere in its rows: the report says how they become its seedlings.
#[test]
fn a_sheet_of_one_cross_needs_a_column_of_it() {
    let titled = [
        "X20-01  vent x spath",
        "No|Pot|Span 2022-05-01 (cm)|Status",
        "1|9 cm|2.5|",
        "2|9 cm|3|",
    ];
    let named = ["No|Span 2022-05-01 (cm)", "1|2.5", "2|3"];
    for (name, lines) in [
        ("a.csv", &titled[..]),
        ("a.xlsx/X20-01", &named),
        ("X20-01.csv", &named),
    ] {
        let import = sorted(&[table(name, lines)]);
        let cautions = import_report(&import, &[]).cautions;
        let words = format!(
            "{name} is named or titled X20-01, and its rows come in as plants of their own. If they are seedlings of that cross, add a column `Cross` with X20-01 in each row"
        );
        assert!(cautions.contains(&words), "{cautions:?}");
    }
    let whole = ["Cross|No|Span (cm)", "X20-01|1|2.5"];
    let import = sorted(&[table("X20-01.csv", &whole)]);
    let cautions = import_report(&import, &[]).cautions;
    assert!(
        !cautions.iter().any(|of| of.contains("titled")),
        "{cautions:?}"
    );
}

/// A bare number in two tables without names is no proof of one plant.
#[test]
fn a_number_of_two_tables_without_names_is_two_plants() {
    let one = table("X20-01.csv", &["No|Span 2022-05-01 (cm)", "1|2.5", "2|3"]);
    let other = table("X21-01.csv", &["No|Span 2023-05-01 (cm)", "1|7.5", "3|8"]);
    let import = sorted(&[one.clone(), other.clone()]);
    assert_adds_up(&import);
    let (noname, taken) = (RowClass::Other, RowClass::CodeTaken);
    let classes = |import: &podbook::analysis::import::Import| -> Vec<RowClass> {
        import.rows.iter().map(|row| row.class).collect()
    };
    assert_eq!(classes(&import), [noname, noname, taken, noname]);
    // The same where the first table is on record.
    let first = brought(std::slice::from_ref(&one), "()");
    let kept = sources(&pages_with(&first));
    let (registry, _) = podbook::registry::build(&kept);
    let choices = podbook::record::ImportChoices::default();
    let second = podbook::analysis::import::import(&registry, &[other], &choices, today());
    assert_eq!(classes(&second), [taken, noname]);
    // In a table of its own, or where it was named, the number is the plant.
    let further = table(
        "X20-01.csv",
        &[
            "No|Span (cm)|Measured",
            "1|2.5|2022-05-01",
            "1|3.5|2023-05-01",
        ],
    );
    assert_eq!(classes(&sorted(&[further])), [noname, RowClass::Clean]);
    let names = table("a.csv", &["No|Name", "1|N. ventricosa"]);
    assert_eq!(
        classes(&sorted(&[names, one])),
        [RowClass::Clean, RowClass::Clean, noname]
    );
}
