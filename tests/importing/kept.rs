//! Nothing of a row is lost, and nothing comes twice.

use crate::tables::{brought, faults, page, pages_with, sources, table, today};
use podbook::analysis::import::{InputTable, import};
use podbook::record::ImportChoices;
use podbook::recording::draft::PageChange;
use podbook::registry::build;

/// How many rows would come into a registry that has these pages.
fn coming(changes: &[PageChange], tables: &[InputTable]) -> usize {
    let sources = sources(&pages_with(changes));
    let import = import(
        &build(&sources).0,
        tables,
        &ImportChoices::default(),
        today(),
    );
    import.coming().count()
}

#[test]
fn the_cells_stay_word_for_word_with_file_and_row() {
    let lines = [
        "code|name|price|died|remarks",
        "V1|N. maxima|10 {old} \\ \"new\"|x|bent ; leaf",
    ];
    let changes = brought(&[table("plants.csv", &lines)], "()");
    let clones = page(&changes, "clones.ron");
    let note = r#"note: "{plants.csv, row 2: code: V1; name: N. maxima; price: 10 \\{old\\} \\\\ \"new\"; died: x; remarks: bent ; leaf}""#;
    assert!(clones.contains(note), "{clones}");
    assert!(clones.contains("fate: died(on: \"?\")"), "{clones}");
    assert_eq!(coming(&changes, &[table("plants.csv", &lines)]), 0);
}

/// A row is known again when rows were put in above it and when the grower wrote something into the note.
#[test]
fn a_row_is_known_again_by_its_cells() {
    let lines = ["name|from", "N. maxima|a friend", "N. truncata|a fair"];
    let mut changes = brought(&[table("a.csv", &lines)], "()");
    for change in &mut changes {
        let text = change.now.as_mut().expect("a page");
        *text = text
            .replace("note: \"{a.csv", "note: \"on the left {a.csv")
            .replace("a fair}\"", "a fair} and {well} grown\"");
    }
    let moved = [
        "name|from",
        "N. ventricosa|a fair",
        "N. maxima|a friend",
        "N. truncata|a fair",
    ];
    assert_eq!(coming(&changes, &[table("a.csv", &moved)]), 1);
    let twice = [
        "name|from",
        "N. maxima|a friend",
        "N. truncata|a fair",
        "N. maxima|a friend",
    ];
    assert_eq!(coming(&changes, &[table("a.csv", &twice)]), 0);
}

/// Further rows of a plant: readings of another day, and what became of it.
#[test]
fn further_rows_of_a_plant_are_added_to_it() {
    let plants = ["code|name|from", "V1|N. maxima|a friend"];
    let readings = [
        "code|date|span cm|status",
        "V1|2021-05-01|9|",
        "V1|2022-05-01|14.5|dead",
    ];
    let both = [table("a.csv", &plants), table("b.csv", &readings)];
    let together = brought(&both, "()");
    let clones = page(&together, "clones.ron");
    for words in [
        "(on: \"2021-05-01\", columns: [\"span\"]",
        "[\"V1\", \"14.5 cm\"]",
        "fate: died(on: \"?\")",
        "{b.csv, row 3: ",
    ] {
        assert!(clones.contains(words), "{words}\n{clones}");
    }
    assert_eq!(coming(&together, &both), 0);
    // One after the other gives the same plant.
    let first = brought(&both[..1], "()");
    let sources = sources(&pages_with(&first));
    let (registry, _) = build(&sources);
    let import = import(&registry, &both[1..], &ImportChoices::default(), today());
    let mut draft = podbook::recording::draft::Draft::new(&registry, today());
    podbook::recording::import::bring_in(&import, &mut draft).expect("it comes in");
    let then = draft.changes();
    let fields = |text: &str| {
        let line = text
            .lines()
            .find(|line| line.contains("code: \"V1\", received"))
            .expect("V1")
            .to_owned();
        let has = [
            "fate: died(on: \"?\")",
            "{a.csv, row 2",
            "{b.csv, row 2",
            "{b.csv, row 3",
        ]
        .map(|words| line.contains(words));
        (has, text.matches("[\"V1\", ").count())
    };
    assert_eq!(fields(page(&then, "clones.ron")), fields(clones));
    assert_eq!(fields(clones), ([true; 4], 2));
    assert!(faults(&then).is_empty(), "{:?}", faults(&then));
    assert_eq!(coming(&then, &both), 0);
}

/// What is certain in the table is written, and nothing beyond it.
#[test]
fn a_cross_with_seed_and_seedlings_becomes_one_page() {
    let plants = ["code|name", "V1|N. maxima", "V2|N. truncata"];
    let crosses = [
        "cross|mother|father|pollinated|sown|seeds",
        "X20-01|V1|V2|2020-05-01|2020-09-10|120",
    ];
    let seedlings = [
        "cross|no|sex|pot|potted|place",
        "X20-01|3|f|7 cm|2023-01|shelf 1",
        "X20-01|H9||||",
    ];
    let changes = brought(
        &[
            table("p.csv", &plants),
            table("c.csv", &crosses),
            table("s.csv", &seedlings),
        ],
        "()",
    );
    insta::assert_snapshot!("one-page", page(&changes, "crosses/X20-01.ron"));
    assert!(faults(&changes).is_empty(), "{:?}", faults(&changes));
}
