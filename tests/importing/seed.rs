//! Seed that a table counts: of how many pods, how surely, and whether any is left.

use crate::bench_top::BenchTop;
use crate::tables::{assert_adds_up, brought, faults, page, sorted, table};
use podbook::analysis::import::{Inexact, InputTable, Why};
use podbook::record::RowClass;

const PLANTS: [&str; 3] = ["code|name", "V1|N. maxima", "V2|N. ventricosa"];

/// Crosses with the cells of one line each, under these further headings.
fn crosses(headings: &str, lines: &[&str]) -> [InputTable; 2] {
    let head = format!("code|mother|father|{headings}");
    let numbered = lines.iter().enumerate();
    let rows = numbered.map(|(at, line)| format!("X20-{:02}|V1|V2|{line}", at + 1));
    let all: Vec<String> = std::iter::once(head).chain(rows).collect();
    let all: Vec<&str> = all.iter().map(String::as_str).collect();
    [table("p.csv", &PLANTS), table("c.csv", &all)]
}

/// The records of pods and seed lots of a page.
fn seed(changes: &[podbook::recording::draft::PageChange], number: usize) -> Vec<String> {
    let text = page(changes, &format!("crosses/X20-{number:02}.ron"));
    let lines = text.lines().map(str::trim);
    let records = lines.filter(|line| line.starts_with("(code: \"P1\"") || line.contains("\"L1\""));
    records
        .map(|line| line.trim_end_matches(',').to_owned())
        .collect()
}

/// One pod only where the table says one; else the seed is of no pod, or of the capsules together.
#[test]
fn seed_is_of_one_pod_only_where_the_table_says_so() {
    let tables = crosses(
        "seeds|no. of pods|harvested",
        &[
            "300||",
            "300|1|",
            "300|2|",
            "300||2020-11",
            "|3|2020-11-02",
            "0|0|",
            "|1-2|",
        ],
    );
    let import = sorted(&tables);
    assert_adds_up(&import);
    let changes = brought(&tables, "()");
    let open = "left: \"not known from the table\")";
    for (number, expected) in [
        (1, vec![format!("(code: \"L1\", seeds: 300, {open}")]),
        (
            2,
            vec![
                "(code: \"P1\", capsules: 1, seeds: 300)".to_owned(),
                format!("(code: \"L1\", pod: \"P1\", seeds: 300, {open}"),
            ],
        ),
        (
            3,
            vec![
                "(code: \"P1\", capsules: 2)".to_owned(),
                format!("(code: \"L1\", pod: \"P1\", seeds: 300, {open}"),
            ],
        ),
        (
            4,
            vec![
                "(code: \"P1\", harvested: \"2020-11\")".to_owned(),
                format!("(code: \"L1\", pod: \"P1\", seeds: 300, {open}"),
            ],
        ),
        (
            5,
            vec![
                "(code: \"P1\", capsules: 3, harvested: \"2020-11-02\")".to_owned(),
                format!("(code: \"L1\", pod: \"P1\", {open}"),
            ],
        ),
        (6, vec!["(code: \"L1\", seeds: 0)".to_owned()]),
        (7, vec![]),
    ] {
        assert_eq!(seed(&changes, number), expected, "{number}");
    }
    assert_eq!(import.rows.last().expect("a row").class, RowClass::Other);
    assert_eq!(faults(&changes), Vec::<String>::new());
}

/// About so many is an estimate; a range or a limit is no number, and none is made of it.
#[test]
fn a_number_of_seeds_is_no_surer_than_its_cell() {
    let cells = [
        "~300",
        "ca. 300",
        "300?",
        "250-300",
        "300+",
        ">300",
        "about 250 to 300",
        "1,200",
        "300 seeds",
    ];
    let tables = crosses("seeds", &cells);
    let import = sorted(&tables);
    let changes = brought(&tables, "()");
    let whys: Vec<Option<Why>> = import.rows[2..]
        .iter()
        .map(|row| row.doubts.first().map(|of| of.why.clone()))
        .collect();
    let (range, limit) = (Why::Inexact(Inexact::Range), Why::Inexact(Inexact::Limit));
    let expected = [
        None,
        None,
        None,
        Some(range.clone()),
        Some(limit.clone()),
        Some(limit),
        Some(range),
        Some(Why::NoCount),
        None,
    ];
    assert_eq!(whys, expected);
    let lots = (1..=9).map(|number| seed(&changes, number).concat());
    let lots: Vec<bool> = lots
        .map(|lot| lot.contains("seeds: 300, estimated: true"))
        .collect();
    assert_eq!(
        lots,
        [true, true, true, false, false, false, false, false, false]
    );
    for number in 4..=8 {
        let lot = seed(&changes, number).concat();
        assert!(lot.contains("\"L1\"") && !lot.contains("seeds:"), "{lot}");
    }
    assert!(seed(&changes, 9).concat().contains("seeds: 300, left"));
    assert_eq!(faults(&changes), Vec::<String>::new());
}

/// A size or count with a range or a mark is no reading: the row says which form is missing, and the cell stays.
#[test]
fn a_size_with_a_range_or_a_mark_is_no_reading() {
    for (cell, of) in [
        ("4-6", Inexact::Range),
        ("4–6 cm", Inexact::Range),
        ("4 to 6 cm", Inexact::Range),
        ("~12", Inexact::About),
        ("ca. 15", Inexact::About),
        ("12 cm?", Inexact::About),
        ("12+", Inexact::Limit),
        (">20", Inexact::Limit),
        ("<5 cm", Inexact::Limit),
        ("2024-06-04", Inexact::Date),
    ] {
        for heading in ["size (cm)", "pot (cm)"] {
            let head = format!("code|name|{heading}");
            let tables = [table("a.csv", &[&head, &format!("V1|N. maxima|{cell}")])];
            let import = sorted(&tables);
            let row = &import.rows[0];
            assert_eq!(row.class, RowClass::Other, "{cell}: {row:#?}");
            assert_eq!(row.doubts[0].why, Why::Inexact(of), "{cell}");
            assert!(
                row.facts.readings.is_empty() && row.facts.pot.is_none(),
                "{cell}"
            );
            let changes = brought(&tables, "()");
            let clones = page(&changes, "clones.ron");
            assert!(clones.contains(&format!("{heading}: {cell}}}")), "{clones}");
        }
    }
}

/// Seed of years ago: sown, it is not due; else `due` says that nothing says how much is left, and does not ask to sow it.
#[test]
fn old_seed_is_not_taken_to_be_in_hand() {
    let tables = "code,mother,father,seeds,harvested,sown\n\
        X18-01,V1,V2,300,2018-11-02,2018-12-01\n\
        X18-02,V1,V2,300,2018-11-02,\n\
        X18-03,V1,V2,,2018-11-02,\n\
        X18-04,V1,V2,,2018-11-02,2018-12\n\
        X18-05,V1,V2,300,,\n";
    let top = BenchTop::empty()
        .file("p.csv", "code,name\nV1,N. maxima\nV2,N. ventricosa\n")
        .file("c.csv", tables)
        .file("s.csv", "name,got,sown\nN. maxima,2019-01-01,2019-02-01\n");
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let run = top.run(&[
        "import",
        "p.csv",
        "c.csv",
        "s.csv",
        "--registry",
        "mine",
        "--apply",
    ]);
    assert_eq!(run.exit, Some(0), "{run}");
    let due = top.run(&["due", "--registry", "mine"]);
    assert!(!due.stdout.contains("sow the seed"), "{due}");
    let asked = |run: &crate::bench_top::Run| -> Vec<String> {
        let codes = ["X18-01", "X18-02", "X18-03", "X18-04", "X18-05", "X19-01"];
        let said = codes
            .iter()
            .filter(|code| run.stdout.contains(&format!("{code}.L1")));
        said.map(|code| (*code).to_owned()).collect()
    };
    assert_eq!(asked(&due), ["X18-02", "X18-03", "X18-05"], "{due}");
    let csv = top.run(&["due", "--registry", "mine", "--format", "csv"]);
    assert!(csv.stdout.contains("see what seed is left"), "{csv}");
    assert!(
        due.stdout.contains("left: not known from the table"),
        "{due}"
    );
    // Once it was looked for and none was found, or the rest went, nothing is due; a sowing of some says nothing of the rest.
    let page = top.text("mine/crosses/X18-02.ron");
    let none = page.replace("left: \"not known from the table\"", "left: \"none\"");
    assert_ne!(page, none);
    std::fs::write(top.path().join("mine/crosses/X18-02.ron"), none).expect("a page");
    let sown = top.run(&["sow", "X18-03.L1", "--registry", "mine"]);
    assert_eq!(sown.exit, Some(0), "{sown}");
    let due = top.run(&["due", "--registry", "mine"]);
    assert_eq!(asked(&due), ["X18-03", "X18-05"], "{due}");
    let gone = top.run(&["gone", "X18-03.L1", "--culled", "--registry", "mine"]);
    assert_eq!(gone.exit, Some(0), "{gone}");
    let due = top.run(&["due", "--registry", "mine"]);
    assert_eq!(asked(&due), ["X18-05"], "{due}");
}

/// A packet keeps the first use of a code and takes no plant's; found by random tables.
#[test]
fn a_packet_takes_no_code_that_is_given() {
    let rows = [
        "code|name|seeds",
        "A1|N. maxima|",
        "A1|N. ventricosa|30",
        "B1|N. ventricosa|30",
        "B1|N. maxima|20",
    ];
    let tables = [table("p.csv", &rows)];
    let import = sorted(&tables);
    assert_adds_up(&import);
    let classes: Vec<RowClass> = import.rows.iter().map(|row| row.class).collect();
    let taken = RowClass::CodeTaken;
    assert_eq!(classes, [RowClass::Clean, taken, RowClass::Clean, taken]);
    brought(&tables, "(choices: [(class: code_taken, choose: take)])");
}
