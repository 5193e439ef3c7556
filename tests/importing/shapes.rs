//! Untidy tables as growers keep them, each shape with what is made of it.

use crate::bench_top::BenchTop;
use crate::tables::{assert_adds_up, brought, chosen, classes, faults, page, sorted, table};
use crate::workbook::{Put, PutSheet, ods, sheet, xlsx};
use podbook::analysis::import::{Import, InputTable, Why};
use podbook::record::{Holds, RowClass};
use podbook::text::sheets_of_file;

/// The tables of a workbook.
pub fn read(name: &str, bytes: &[u8]) -> Vec<InputTable> {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join(name);
    std::fs::write(&path, bytes).expect("a file");
    let sheets = sheets_of_file(&path).expect("sheets");
    let table = |of: podbook::text::GridSheet| InputTable {
        name: of
            .name
            .map_or(name.to_owned(), |sheet| format!("{name}/{sheet}")),
        rows: of.rows,
        coloured: of.coloured,
        struck: of.struck,
    };
    sheets.into_iter().map(table).collect()
}

fn acquired(import: &Import) -> Vec<Option<&str>> {
    import
        .rows
        .iter()
        .map(|row| row.facts.acquired.as_deref())
        .collect()
}

#[test]
fn cells_joined_downward_hold_for_every_row() {
    let mut joined = sheet(
        "Plants",
        &[
            "My plants||",
            "code|name|from",
            "V1|N. ventricosa|a friend",
            "V2|N. maxima|",
            "V3|N. truncata|",
        ],
    );
    joined.joined = vec!["A1:C1", "C3:C5"];
    let import = sorted(&read("joined.xlsx", &xlsx(&[joined])));
    let suppliers: Vec<Option<&str>> = import
        .rows
        .iter()
        .map(|row| row.facts.supplier.as_deref())
        .collect();
    assert_eq!(suppliers, [Some("a friend"); 3]);
    assert_eq!(import.tables[0].headings, 2);
    assert_adds_up(&import);
}

#[test]
fn headings_may_be_in_row_3_and_come_again() {
    let lines = [
        "Greenhouse",
        "",
        "code|name",
        "V1|N. ventricosa",
        "code|name",
        "V2|N. maxima",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    assert_eq!(import.tables[0].headed, Some(3));
    assert_eq!((import.headings(), import.rows.len()), (3, 2));
    assert_eq!(import.rows[1].line, 6);
    assert_adds_up(&import);
}

/// One day as a date of the workbook, as the number behind it, as words, and as the same in the other kind of workbook.
#[test]
fn dates_come_as_dates_as_numbers_and_as_words() {
    let rows = vec![
        vec!["code".into(), "name".into(), "got".into()],
        vec![
            "V1".into(),
            "N. maxima".into(),
            Put::Day(44210, "2021-01-14"),
        ],
        vec!["V2".into(), "N. maxima".into(), Put::Number(44210.0)],
        vec!["V3".into(), "N. maxima".into(), "14 Jan 2021".into()],
        vec!["V4".into(), "N. maxima".into(), "14/1/21".into()],
        vec![
            "V5".into(),
            "N. maxima".into(),
            "2021-01-14 00:00:00".into(),
        ],
    ];
    let of = PutSheet {
        name: "Plants",
        rows,
        joined: Vec::new(),
    };
    for (name, bytes) in [
        ("a.xlsx", xlsx(std::slice::from_ref(&of))),
        ("a.ods", ods(&[of])),
    ] {
        let import = sorted(&read(name, &bytes));
        let found = acquired(&import);
        let day = Some("2021-01-14");
        assert_eq!(
            found,
            [day, day, Some("14 Jan 2021"), Some("14/1/2021"), day],
            "{name}"
        );
        assert_eq!(
            import.rows[1].class,
            RowClass::Other,
            "{name}: a bare number is in doubt"
        );
        assert_adds_up(&import);
    }
}

#[test]
fn units_may_be_in_headings() {
    let lines = [
        "code|name|Leaf span (in)|pitcher height, mm|pot [cm]",
        "V1|N. maxima|3 1/2|41|9",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_eq!(import.rows[0].class, RowClass::Clean);
    let clones = brought(&tables, "()");
    let clones = page(&clones, "clones.ron");
    assert!(
        clones.contains("columns: [\"span\", \"height\"]"),
        "{clones}"
    );
    assert!(
        clones.contains("[\"V1\", \"3 1/2 in\", \"41 mm\"]"),
        "{clones}"
    );
    assert!(clones.contains("pot: \"9 cm\""), "{clones}");
}

#[test]
fn two_plants_in_one_cell_are_left_out_or_one_each() {
    let lines = [
        "code|name",
        "V1 & V2|N. maxima",
        "|N. ventricosa and N. truncata",
    ];
    let tables = [table("a.csv", &lines)];
    let import = sorted(&tables);
    assert_eq!(import.count(RowClass::SeveralPlants), 2);
    assert_eq!(import.coming().count(), 0);
    let changes = brought(
        &tables,
        "(choices: [(class: several_plants, choose: take)])",
    );
    let clones = page(&changes, "clones.ron");
    for record in [
        "code: \"V1\", received: \"N. maxima\"",
        "code: \"V2\", received: \"N. maxima\"",
        "received: \"N. ventricosa\"",
        "received: \"N. truncata\"",
    ] {
        assert!(clones.contains(record), "{record}\n{clones}");
    }
}

/// What is said of colours and comments of a workbook.
fn said_of_looks(name: &str, bytes: &[u8]) -> Vec<String> {
    let top = BenchTop::empty().bytes(name, bytes);
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let run = top.run(&["import", name, "--registry", "mine", "--json"]);
    let report: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
    assert_eq!(report["rows"], 4, "{run}");
    let cautions = report["cautions"].as_array().expect("cautions").iter();
    let cautions = cautions.map(|of| of.as_str().expect("words").to_owned());
    let of_looks = ["colour", "comments", "Comments", "struck"];
    cautions
        .filter(|of| of_looks.iter().any(|word| of.contains(word)))
        .collect()
}

/// Colour says nothing that can be read, and the report says where it is: in cells, also empty ones, and not in headings.
/// White is none.
#[test]
fn colour_is_not_read_and_that_is_said() {
    let rows = |name: fn(&'static str) -> Put, empty: Put| {
        vec![
            vec![
                Put::Coloured("code"),
                Put::Coloured("name"),
                Put::Coloured("sex"),
            ],
            vec!["V1".into(), name("N. maxima"), empty],
            vec!["V2".into(), name("N. truncata"), Put::Empty],
            vec!["V3".into(), Put::White("N. ventricosa"), "f".into()],
        ]
    };
    let sheet = |rows| PutSheet {
        name: "Plants",
        rows,
        joined: Vec::new(),
    };
    let coloured = [sheet(rows(Put::Coloured, Put::Coloured("")))];
    let comments =
        "Comments and pictures of a workbook are not read: write what they say into a column";
    assert_eq!(
        said_of_looks("a.xlsx", &xlsx(&coloured)),
        [
            "a.xlsx/Plants: cells filled with a colour, which is not read: 2 in `name` and 1 in `sex`. Write what the colour means in a column",
            comments
        ]
    );
    let plain = [sheet(rows(Put::White, Put::Empty))];
    assert_eq!(said_of_looks("a.xlsx", &xlsx(&plain)), [comments]);
    assert_eq!(
        said_of_looks("a.ods", &ods(&coloured)),
        [
            "Colours, words struck through, comments and pictures of a workbook are not read: write what they say into a column"
        ]
    );
}

/// Rows with words struck through are those of plants like any other, and the report names them.
#[test]
fn words_struck_through_are_read_and_that_is_said() {
    let rows = vec![
        vec![Put::Struck("code"), "name".into(), "sex".into()],
        vec![Put::Struck("V1"), Put::Struck("N. maxima"), Put::Empty],
        vec!["V2".into(), "N. truncata".into(), Put::Struck("")],
        vec!["V3".into(), Put::Struck("N. ventricosa"), "f".into()],
    ];
    let of = PutSheet {
        name: "Plants",
        rows,
        joined: Vec::new(),
    };
    assert_eq!(
        said_of_looks("a.xlsx", &xlsx(&[of]))[0],
        "a.xlsx/Plants: 2 rows have words struck through, which is not read: rows 2 and 4. Write what it means in a column"
    );
}

/// A cell that shows a month holds its first day, which nobody wrote; another day in such a cell was written.
#[test]
fn a_date_that_shows_a_month_is_that_month() {
    let rows = vec![
        vec!["code".into(), "name".into(), "got".into()],
        vec![
            "V1".into(),
            "N. maxima".into(),
            Put::Month(43952, "2020-05-01"),
        ],
        vec![
            "V2".into(),
            "N. maxima".into(),
            Put::Month(43971, "2020-05-20"),
        ],
        vec![
            "V3".into(),
            "N. maxima".into(),
            Put::Day(43952, "2020-05-01"),
        ],
    ];
    let of = PutSheet {
        name: "Plants",
        rows,
        joined: Vec::new(),
    };
    let import = sorted(&read("a.xlsx", &xlsx(&[of])));
    let days = [Some("2020-05"), Some("2020-05-20"), Some("2020-05-01")];
    assert_eq!(acquired(&import), days);
}

/// `20-May` as words is a day without a year, or a month; a date that is shown so has its year.
#[test]
fn a_date_that_shows_no_year_has_one_where_it_is_a_date() {
    let plant = |code: &'static str, got: Put| vec![code.into(), "N. maxima".into(), got];
    let of = PutSheet {
        name: "Plants",
        rows: vec![
            vec!["code".into(), "name".into(), "got".into()],
            plant("V1", "20-May".into()),
            plant("V2", Put::WithoutYear(43971, "2020-05-20")),
        ],
        joined: Vec::new(),
    };
    for (name, bytes) in [
        ("a.xlsx", xlsx(std::slice::from_ref(&of))),
        ("a.ods", ods(&[of])),
    ] {
        let import = sorted(&read(name, &bytes));
        assert_eq!(acquired(&import), [None, Some("2020-05-20")], "{name}");
        assert_eq!(classes(&import)["clean"], 1, "{name}");
    }
}

#[test]
fn every_sheet_is_read_and_an_empty_one_is_passed_over() {
    let sheets = [
        sheet("Plants", &["code|name", "V1|N. maxima", "V2|N. ventricosa"]),
        sheet("Empty", &[]),
        sheet("Crosses", &["cross|mother|father", "X20-01|V1|V2"]),
        sheet("Ideas", &["buy more moss"]),
    ];
    for (name, bytes) in [("a.xlsx", xlsx(&sheets)), ("a.ods", ods(&sheets))] {
        let import = sorted(&read(name, &bytes));
        let names: Vec<&str> = import
            .tables
            .iter()
            .map(|table| table.name.as_str())
            .collect();
        assert_eq!(
            names,
            ["Plants", "Crosses", "Ideas"].map(|sheet| format!("{name}/{sheet}"))
        );
        assert_eq!(classes(&import)["clean"], 3, "{name}");
        assert_eq!(classes(&import)["no_plant"], 1, "{name}");
        assert_adds_up(&import);
    }
}

#[test]
fn semicolons_and_decimal_commas_are_read() {
    let top = BenchTop::empty().file(
        "a.csv",
        "code;name;span cm;got\r\nV1;N. maxima;9,6;25.10.2021\r\n",
    );
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let run = top.run(&["import", "a.csv", "--registry", "mine", "--apply"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let clones = top.text("mine/clones.ron");
    assert!(
        clones.contains("[\"V1\", \"9,6 cm\"]") && clones.contains("on: \"25.10.2021\""),
        "{clones}"
    );
}

#[test]
fn columns_without_headings_are_known_by_their_cells() {
    let lines = [
        "V1|N. maxima|f|2020-05-01",
        "V2|N. ventricosa x truncata|m|2020-06-01",
        "V3|N. truncata|f|2021",
    ];
    let import = sorted(&[table("a.csv", &lines)]);
    let holds: Vec<Holds> = import.tables[0]
        .columns
        .iter()
        .map(|column| column.holds)
        .collect();
    // A date without a heading may be of anything: it stays in the note.
    assert_eq!(
        holds,
        [Holds::Code, Holds::Label, Holds::Sex, Holds::NotRead]
    );
    assert_eq!((import.headings(), import.rows.len()), (0, 3));
    let changes = brought(&[table("a.csv", &lines)], "()");
    let clones = page(&changes, "clones.ron");
    assert!(clones.contains("column D: 2020-05-01"), "{clones}");
}

#[test]
fn a_plant_named_by_parents_alone_becomes_a_seedling_of_theirs() {
    let lines = [
        "code|name|mother|father|size",
        "V1|N. maxima|||20 cm",
        "V2|N. ventricosa|||20 cm",
        "H7||V1|V2|4 cm",
        "H8||V1|V2|5 cm",
    ];
    let changes = brought(&[table("a.csv", &lines)], "()");
    let crosses: Vec<&str> = changes
        .iter()
        .filter(|of| of.path.starts_with("crosses/"))
        .map(|of| of.path.as_str())
        .collect();
    assert_eq!(crosses, ["crosses/XX-01.ron"]);
    let cross = page(&changes, "crosses/XX-01.ron");
    assert!(
        cross.contains("parents: known(seed: \"V1\", pollen: \"V2\")"),
        "{cross}"
    );
    assert!(cross.contains("number: \"1\", nickname: \"H7\""), "{cross}");
    assert!(faults(&changes).is_empty(), "{:?}", faults(&changes));
}

/// Parents come in no surer than the table has them.
#[test]
fn parents_in_doubt_stay_in_doubt() {
    let lines = [
        "code|mother|father",
        "X20-01|V1|V2 or V3",
        "X20-02|V1|",
        "X20-03|?|V2",
        "X20-04|V1|open",
        "X20-05|V1/V2|V3",
        "X20-06|V1|talangensis",
        "X20-07|V1|the red one",
    ];
    let plants = [
        "code|name",
        "V1|N. maxima",
        "V2|N. ventricosa",
        "V3|N. truncata",
    ];
    let tables = [table("c.csv", &lines), table("p.csv", &plants)];
    let changes = brought(&tables, "()");
    for (cross, parents) in [
        (1, "pollen_one_of(seed: \"V1\", pollen: [\"V2\", \"V3\"])"),
        (2, "pollen_unknown(seed: \"V1\")"),
        (3, "seed_unknown(pollen: \"V2\")"),
        (4, "open(seed: \"V1\")"),
        (5, "seed_one_of(pollen: \"V3\", seed: [\"V1\", \"V2\"])"),
        (6, "known(seed: \"V1\", pollen: \"talangensis\")"),
        (7, "pollen_unknown(seed: \"V1\")"),
    ] {
        let cross = page(&changes, &format!("crosses/X20-0{cross}.ron")).to_owned();
        assert!(
            cross.contains(&format!("parents: {parents}")),
            "{parents}\n{cross}"
        );
        assert!(!cross.contains("witnessed"), "{cross}");
    }
    assert!(faults(&changes).is_empty(), "{:?}", faults(&changes));
    assert_eq!(sorted(&tables).count(RowClass::ParentUnknown), 5);
}

#[test]
fn a_column_can_be_taken_for_something_else() {
    let lines = ["code|name|when|width", "V1|N. maxima|2020-05-01|12 cm"];
    let tables = [table("a.csv", &lines)];
    assert_eq!(acquired(&sorted(&tables)), [None]);
    let choices = "(columns: [(heading: \"when\", holds: acquired), (table: \"a.csv\", heading: \"width\", holds: not_read)])";
    let import = chosen(&tables, choices);
    assert_eq!(acquired(&import), [Some("2020-05-01")]);
    assert!(import.rows[0].facts.readings.is_empty());
    assert_eq!(import.rows[0].class, RowClass::Clean);
}

/// `Plant` heads names in this list, and what became of a plant stands where its number was.
#[test]
fn a_column_of_plants_may_hold_names_and_a_number_may_say_dead() {
    let import = sorted(&[table(
        "list.csv",
        &[
            "ID|Plant|From",
            "1|Nep ventricosa x talangensis|club swap",
            "2|N. truncata|a fair",
            "dead|N. maxima|a fair",
        ],
    )]);
    let holds: Vec<Holds> = import.tables[0].columns.iter().map(|of| of.holds).collect();
    assert_eq!(holds, [Holds::Code, Holds::Label, Holds::Supplier]);
    let facts = import.rows.iter().map(|row| {
        let fate = row.facts.fate.as_ref().map(|of| of.word);
        (row.facts.code.as_deref(), row.facts.label.as_deref(), fate)
    });
    assert_eq!(
        facts.collect::<Vec<_>>(),
        [
            (Some("1"), Some("Nep ventricosa x talangensis"), None),
            (Some("2"), Some("N. truncata"), None),
            (None, Some("N. maxima"), Some("died")),
        ]
    );
    assert_adds_up(&import);
}

/// What became of a plant in words: with a day, with a name, in words nobody knows, and that it lives.
#[test]
fn a_status_is_read_or_said_not_to_be_understood() {
    let import = sorted(&[table(
        "status.csv",
        &[
            "Code|Name|Status",
            "V1|N. maxima|sold 2021-05-01",
            "V2|N. maxima|died winter 2020",
            "V3|N. maxima|given to a friend",
            "V4|N. maxima|gave away",
            "V5|N. maxima|dead?",
            "V6|N. maxima|alive",
            "V7|N. maxima|moody",
            "V8|N. maxima|dead ?",
            "V9|N. maxima|sold ??",
        ],
    )]);
    let fates = import.rows.iter().map(|row| {
        let fate = row.facts.fate.as_ref();
        fate.map(|of| (of.word, of.on.as_str(), row.facts.to.as_deref()))
    });
    assert_eq!(
        fates.collect::<Vec<_>>(),
        [
            Some(("sold", "2021-05-01", None)),
            Some(("died", "winter 2020", None)),
            Some(("given", "?", Some("a friend"))),
            Some(("given", "?", None)),
            None,
            None,
            None,
            None,
            None,
        ]
    );
    let open: Vec<bool> = import
        .rows
        .iter()
        .map(|row| !row.doubts.is_empty())
        .collect();
    assert_eq!(
        open,
        [false, false, false, false, true, false, true, true, true]
    );
}

/// A list of what was sold, a list of crosses: a bare date is that of what the row is about.
#[test]
fn a_bare_date_is_of_what_the_row_says() {
    let import = sorted(&[
        table(
            "sold.csv",
            &[
                "Plant|Sold to|Date",
                "V1|a friend|2024-03-01",
                "V2|the club|",
            ],
        ),
        table(
            "crosses.csv",
            &["Cross|Mother|Father|Date", "X20-01|V1|V2|2020-05-01"],
        ),
    ]);
    let fates = import.rows[..2].iter().map(|row| {
        let fate = row.facts.fate.as_ref();
        fate.map(|of| (of.word, of.on.as_str(), row.facts.to.as_deref()))
    });
    assert_eq!(
        fates.collect::<Vec<_>>(),
        [
            Some(("sold", "2024-03-01", Some("a friend"))),
            Some(("sold", "?", Some("the club"))),
        ]
    );
    assert_eq!(
        import.rows[2].facts.pollinated.as_deref(),
        Some("2020-05-01")
    );
}

#[test]
fn a_row_of_totals_is_no_plant_and_a_second_table_has_its_own_headings() {
    let mut two = table(
        "two.csv",
        &[
            "Cross|Mother|Father",
            "X20-01|V1|V2",
            "Total|1|",
            "",
            "Code|Name|Source",
            "Q1|N. maxima|a stall",
        ],
    );
    two.rows
        .retain(|row| row.cells.iter().any(|cell| !cell.is_empty()));
    let import = sorted(&[two]);
    assert_eq!(import.tables.len(), 2);
    assert_eq!(import.tables[1].headed, Some(5));
    let of = |line| {
        import
            .rows
            .iter()
            .find(|row| row.line == line)
            .expect("a row")
    };
    assert_eq!(of(3).class, RowClass::NoPlant);
    assert_eq!(of(6).facts.label.as_deref(), Some("N. maxima"));
    assert_eq!(of(6).facts.supplier.as_deref(), Some("a stall"));
    assert_adds_up(&import);
}

/// Mixed pollen, and a father with a mark of doubt: neither is made surer than its cell, and a known plant is not called
/// unknown.
#[test]
fn mixed_pollen_and_doubted_parents_are_told_apart() {
    let plants = table(
        "plants",
        &[
            "code|name",
            "A1|N. ventricosa",
            "A2|N. maxima",
            "E2|N. veitchii",
            "E3|N. truncata",
        ],
    );
    let crosses = table(
        "crosses",
        &[
            "code|seed parent|pollen parent",
            "X20-01|A1|A2?",
            "X20-02|A1|E2 & E3",
            "X20-03|A1|mix of E2, E3 and A2",
            "X20-04|A1|E2 or E3",
            "X20-05|A1|E2 + Z9",
            "X20-06|A1|prob. A2",
            "X20-07|A1|N. veitchii + N. truncata",
        ],
    );
    let tables = [plants, crosses];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let whys = |code: &str| -> Vec<Why> {
        let row = import
            .rows
            .iter()
            .find(|row| row.facts.code.as_deref() == Some(code));
        row.expect("a row")
            .doubts
            .iter()
            .map(|doubt| doubt.why.clone())
            .collect()
    };
    assert_eq!(whys("X20-01"), [Why::ParentDoubted("A2".to_owned())]);
    assert_eq!(whys("X20-02"), [Why::PollenMixed]);
    assert_eq!(whys("X20-04"), [Why::ParentOneOf]);
    assert_eq!(whys("X20-05"), [Why::ParentNotKnown]);
    assert_eq!(whys("X20-06"), [Why::ParentDoubted("A2".to_owned())]);
    let changes = brought(&tables, "()");
    let parents = |code: &str| {
        let text = page(&changes, &format!("crosses/{code}.ron"));
        let line = text.lines().find(|line| line.contains("parents:"));
        line.expect("parents").trim().to_owned()
    };
    assert_eq!(parents("X20-01"), "parents: pollen_unknown(seed: \"A1\"),");
    assert_eq!(
        parents("X20-02"),
        "parents: pollen_mixed(seed: \"A1\", pollen: [\"E2\", \"E3\"]),"
    );
    assert_eq!(
        parents("X20-03"),
        "parents: pollen_mixed(seed: \"A1\", pollen: [\"E2\", \"E3\", \"A2\"]),"
    );
    assert_eq!(
        parents("X20-04"),
        "parents: pollen_one_of(seed: \"A1\", pollen: [\"E2\", \"E3\"]),"
    );
    assert_eq!(parents("X20-05"), "parents: pollen_unknown(seed: \"A1\"),");
    assert_eq!(
        parents("X20-07"),
        "parents: pollen_mixed(seed: \"A1\", pollen: [\"E2\", \"E3\"]),"
    );
    assert_eq!(faults(&changes), Vec::<String>::new());
}

/// Dates that are not whole as growers write them come in as what they can mean, and no less.
#[test]
fn dates_in_part_and_weeks_come_in_as_ranges() {
    let lines = [
        "code|name|bought",
        "A1|N. ventricosa|'20",
        "A2|N. ventricosa|2020-05-xx",
        "A3|N. ventricosa|2020-??-??",
        "A4|N. ventricosa|w/c 4 May 20",
        "A5|N. ventricosa|week of 2020-05-04",
        "A6|N. ventricosa|xx-05-2020",
        "A7|N. ventricosa|week of May 2020",
        "A8|N. ventricosa|'99",
    ];
    let import = sorted(&[table("plants", &lines)]);
    assert_eq!(
        acquired(&import),
        [
            Some("2020"),
            Some("2020-05"),
            Some("2020"),
            Some("2020-05-04 to 2020-05-10"),
            Some("2020-05-04 to 2020-05-10"),
            None,
            None,
            Some("1999"),
        ]
    );
}

/// `May 20` may be a day or a month of a year: it is never one of them alone. A year in figures that can be no day is one.
#[test]
fn years_of_two_figures_are_read_only_where_they_can_be_no_day() {
    for (cell, read) in [
        ("May '20", "May 2020"),
        ("May’20", "May 2020"),
        ("5 May '20", "5 May 2020"),
        ("spring 20", "spring 2020"),
        ("Spring '20", "spring 2020"),
        ("summer of '20", "summer 2020"),
        ("winter 20/21", "winter 2020/21"),
        ("late 19", "late 2019"),
        ("early May 20", "early may 2020"),
        ("May-99", "May 1999"),
        ("5/2020", "5/2020"),
        ("2020/5", "2020/5"),
    ] {
        let import = sorted(&[table(
            "a.csv",
            &["code|name|got", &format!("V1|N. maxima|{cell}")],
        )]);
        assert_eq!(
            import.rows[0].class,
            RowClass::Clean,
            "{cell}: {:#?}",
            import.rows
        );
        let came = acquired(&import)[0].map(str::to_lowercase);
        assert_eq!(came, Some(read.to_lowercase()), "{cell}");
    }
    for (cell, day, month) in [
        ("May 20", "20 May", Some("May 2020")),
        ("20 May", "20 May", Some("May 2020")),
        ("May-20", "20 May", Some("May 2020")),
        ("20-May", "20 May", Some("May 2020")),
        ("Sept. 07", "7 Sept", Some("Sept 2007")),
        ("May 5", "5 May", None),
        ("20th May", "20 May", None),
    ] {
        let tables = [table(
            "a.csv",
            &["code|name|got", &format!("V1|N. maxima|{cell}")],
        )];
        let import = sorted(&tables);
        assert_eq!(import.rows[0].class, RowClass::Other, "{cell}");
        let why = Why::NoYear(day.to_owned(), month.map(str::to_owned));
        assert_eq!(import.rows[0].doubts[0].why, why, "{cell}");
        assert_eq!(acquired(&import), [None], "{cell}");
        let changes = brought(&tables, "()");
        let clones = page(&changes, "clones.ron");
        let mut lines = clones.lines();
        let line = lines.find(|line| line.contains("code: \"V1\""));
        let line = line.expect("V1");
        assert!(
            line.contains(&format!("got: {cell}}}")) && !line.contains("on: "),
            "{line}"
        );
    }
}
