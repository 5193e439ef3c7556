//! Lists of crosses with what was sown of them, lists of seedlings by their parents, and what a run without `--apply` says
//! that it would bring in.

use crate::bench_top::BenchTop;
use crate::tables::{assert_adds_up, brought, chosen, faults, page, sorted, table};
use podbook::analysis::import::{Import, Kind, TakenBy, Why};
use podbook::record::{Holds, RowClass};
use podbook::report::import::import_report;

const PLANTS: [&str; 5] = [
    "Tag|Name",
    "1|N. ventricosa",
    "2|N. truncata",
    "4|N. maxima",
    "7|N. mira",
];
const LOG: [&str; 5] = [
    "Cross|Mother|Father|Pollinated|Harvested|Pods|Seeds|Sown|Pot|Came up|Counted|Largest leaf (cm)",
    "P1|1|4|2022-04-10|Aug-Sept 2022|3|~200|2022-09-10|3in|45|2022-12-01|1",
    "P2|1|2|10-14 April 2022|late Aug 2022|1|120|mid Sept 2022|3in|||2",
    "P4|7|4|2022-05-01||0|||||2022-12-01|",
    "P6|4|1||||||2in|||",
];

/// A code headed `Cross` is that of a cross, and the pot that of what was sown: no seedling is made of either. A size is
/// that of no one plant.
#[test]
fn a_pot_of_a_sowing_makes_no_plant() {
    let tables = [table("plants.csv", &PLANTS), table("log.csv", &LOG)];
    for choices in [
        "()",
        "(columns: [(heading: \"Largest leaf (cm)\", holds: reading)])",
    ] {
        let import = chosen(&tables, choices);
        assert_adds_up(&import);
        let log = &import.rows[4..];
        assert!(
            log.iter().all(|row| row.kind == Kind::Cross && row.comes),
            "{log:#?}"
        );
        let changes = brought(&tables, choices);
        let p1 = page(&changes, "crosses/P1.ron");
        for words in [
            "harvested: \"Aug 2022 to Sept 2022\"",
            "container: \"3in\", germinated: [(on: \"2022-12-01\", count: 45)]",
        ] {
            assert!(p1.contains(words), "{words}: {p1}");
        }
        assert!(!p1.contains("seedlings"), "{p1}");
        let p2 = page(&changes, "crosses/P2.ron");
        assert!(
            p2.contains("on: [\"10 April 2022 to 14 April 2022\"]"),
            "{p2}"
        );
        assert_eq!(faults(&changes), Vec::<String>::new());
    }
}

/// What is said of a plant in the row of a cross with its seed is asked about, and makes no plant.
#[test]
fn what_only_a_plant_has_is_asked_about_in_a_sowing_log() {
    let lines = [
        "Cross|Mother|Father|Seeds|Came up|Span|Status",
        "P1|1|4|30|12|3 cm|",
        "P2|1|2|30|0||dead 2022",
    ];
    let import = sorted(&[table("plants.csv", &PLANTS), table("log.csv", &lines)]);
    for row in &import.rows[4..] {
        assert_eq!((&row.kind, row.class), (&Kind::Cross, RowClass::Other));
        assert_eq!(row.doubts[0].why, Why::OfNoPlant);
        assert_eq!(row.facts.fate, None);
    }
}

/// Nor does a pot without a count make one where the crosses are named by their codes alone.
#[test]
fn a_log_of_codes_alone_makes_no_plant() {
    let lines = [
        "Cross|Sown|Pot|Came up",
        "P1|2022-09-10|3 in|12",
        "P2|2022-09-11|2 in|",
    ];
    let import = sorted(&[table("log.csv", &lines)]);
    for (row, cross) in import.rows.iter().zip(["P1", "P2"]) {
        assert_eq!(row.kind, Kind::SeedOf(cross.to_owned()));
    }
}

/// So it is with formulas for crosses, and a code among them stays one.
#[test]
fn a_log_of_formulas_makes_no_plant() {
    let lines = [
        "Cross|Sown|Seeds|Pot|Status",
        "ventricosa x truncata|2021-04-13|120|3 in|ok",
        "truncata x maxima|2021|||died",
        "maxima x ventricosa|2021||3 in|",
        "P1|2020-05-13|50||",
    ];
    let import = sorted(&[table("log.csv", &lines)]);
    let kinds: Vec<&Kind> = import.rows.iter().map(|row| &row.kind).collect();
    let seed = Kind::SeedOf("P1".to_owned());
    assert_eq!(kinds, [&Kind::Cross, &Kind::Cross, &Kind::Cross, &seed]);
    assert_eq!(import.rows[1].doubts[0].why, Why::OfNoPlant);
}

/// In a list of seedlings the pot is that of the seedling, also beside the day of its sowing.
#[test]
fn a_pot_of_a_seedling_is_its_own() {
    let lines = ["Code|Mother|Father|Sown|Pot", "Odd1|1|4|2021-05-01|3 in"];
    let tables = [table("plants.csv", &PLANTS), table("seedlings.csv", &lines)];
    let changes = brought(&tables, "()");
    let cross = page(&changes, "crosses/X21-01.ron");
    assert!(
        cross.contains("nickname: \"Odd1\", pots: [(on: \"?\", pot: \"3 in\")]"),
        "{cross}"
    );
    assert!(!cross.contains("container"), "{cross}");
}

fn seedlings(cells: &[&str]) -> Import {
    let rows = cells.iter().enumerate();
    let rows = rows.map(|(at, cell)| format!("S-{at}|{cell}|2021-03-04|"));
    let head = "Seedling|Cross|Sown|Span".to_owned();
    let lines: Vec<String> = std::iter::once(head).chain(rows).collect();
    let lines: Vec<&str> = lines.iter().map(String::as_str).collect();
    let import = sorted(&[table("plants.csv", &PLANTS), table("seedlings.csv", &lines)]);
    assert_adds_up(&import);
    import
}

/// A code headed `Seedling` is that of a seedling, though the row says nothing that only a plant has; and a column headed
/// `Cross` that holds formulas holds parents.
#[test]
fn a_code_headed_seedling_is_no_cross() {
    let import = seedlings(&[
        "ventricosa x truncata",
        "maxima × ?",
        "1 x 2",
        "1 x ?",
        "4 self",
    ]);
    let column = &import.tables[1].columns[1];
    assert_eq!(
        (column.holds, column.by),
        (Holds::Parents, TakenBy::Content)
    );
    let rows = &import.rows[4..];
    assert!(
        rows.iter()
            .all(|row| matches!(row.kind, Kind::SeedlingOf(_)) && row.comes)
    );
    let cautions = import_report(&import, &[]).cautions;
    let words = "5 plants are named by parents and no cross (S-0, S-1, S-2, S-3 and S-4): ";
    assert!(
        cautions.iter().any(|of| of.starts_with(words)),
        "{cautions:?}"
    );
    let lines = [
        "Seedling|Cross",
        "S-1|maxima × ?",
        "S-2|1 x ?",
        "S-3|truncata self",
        "S-4|1 x 2 & 4",
        "S-5|zork (x) y x z",
    ];
    let tables = [table("plants.csv", &PLANTS), table("seedlings.csv", &lines)];
    let changes = brought(&tables, "()");
    for (number, parents) in [
        "label_only(\"maxima × ?\")",
        "pollen_unknown(seed: \"1\")",
        "pollen_unknown(seed: \"2\")",
        "pollen_mixed(seed: \"1\", pollen: [\"2\", \"4\"])",
        "unknown",
    ]
    .iter()
    .enumerate()
    {
        let text = page(&changes, &format!("crosses/XX-0{}.ron", number + 1));
        assert!(text.contains(&format!("parents: {parents},")), "{text}");
    }
    // Words that cannot be read stay on the page, beside the note.
    let unread = page(&changes, "crosses/XX-05.ron");
    assert!(unread.contains("received: \"zork (x) y x z\""), "{unread}");
    assert_eq!(faults(&changes), Vec::<String>::new());
}

/// Formulas under `Cross` are names where the plants came from a supplier; codes stay codes.
#[test]
fn a_column_of_crosses_is_taken_for_what_its_cells_are() {
    let bought = [
        "Code|Cross|From",
        "A1|ventricosa x truncata|a shop",
        "A2|N. maxima|a fair",
    ];
    let import = sorted(&[table("a.csv", &bought)]);
    assert_eq!(import.tables[0].columns[1].holds, Holds::Label);
    assert_eq!(import.count(RowClass::Clean), 2);
    let coded = ["No|Cross|Span", "1|X20-01|3 cm", "2|X20-01|4 cm"];
    let import = sorted(&[table("a.csv", &coded)]);
    assert_eq!(import.tables[0].columns[1].holds, Holds::Cross);
}

/// Before anything is recorded it is said what would be.
#[test]
fn a_run_without_apply_says_what_it_would_add() {
    let log: Vec<String> = LOG.iter().map(|line| line.replace('|', ",")).collect();
    let top = BenchTop::empty()
        .file("plants.csv", &PLANTS.join("\n").replace('|', ","))
        .file("log.csv", &log.join("\n"));
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let run = top.run(&["import", "plants.csv", "log.csv", "--registry", "mine"]);
    let words = "Would bring in 8 of 8 rows: 4 founders, 4 crosses and 2 sowings. Nothing";
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.starts_with(words), "{run}");
    let run = top.run(&[
        "import",
        "plants.csv",
        "log.csv",
        "--registry",
        "mine",
        "--apply",
    ]);
    let words = "Brought in 8 rows: 4 founders, 4 crosses and 2 sowings";
    assert!(run.stdout.starts_with(words), "{run}");
}

/// `Plant` heads the codes of plants, also where the formula of their parents stands beside them.
#[test]
fn plants_with_a_formula_of_their_parents_are_plants() {
    let plants = [
        "Plant,Cross,Sown",
        "P5,ventricosa x truncata,2023-01-01",
        "P6,truncata x ventricosa,2023-01-01",
    ];
    let top = BenchTop::empty().file("plants.csv", &plants.join("\n"));
    assert_eq!(top.run(&["new", "mine"]).exit, Some(0));
    let run = top.run(&["import", "plants.csv", "--registry", "mine", "--apply"]);
    let words = "Brought in 2 rows: 2 crosses, 2 sowings and 2 seedlings";
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.starts_with(words), "{run}");
}

/// A cross of which nothing is counted yet has no plant either.
#[test]
fn a_cross_that_counts_nothing_has_no_seedling() {
    for lines in [
        ["Cross|Pods|Remarks", "X20-01|3|", "X20-02||aborted"],
        [
            "Cross|♀ × ♂|Remarks",
            "X20-01|N. maxima x N. alata|",
            "X20-02|N. maxima x N. mira|aborted",
        ],
    ] {
        let tables = [table("c.csv", &lines)];
        let changes = brought(&tables, "()");
        let cross = page(&changes, "crosses/X20-02.ron");
        assert!(
            !cross.contains("seedlings") && cross.contains("aborted"),
            "{cross}"
        );
        assert_eq!(faults(&changes), Vec::<String>::new());
    }
}
