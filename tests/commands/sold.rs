//! What left, to whom, for how much and under what tag.

use crate::bench_top::BenchTop;

const CLONES: &str = r#"(clones: [
    (code: "Max1", received: "N. maxima", fate: sold(on: "2024-05-01", label: "maxima dark", to: "a buyer", price: "a pot of moss")),
    (code: "Tru1", received: "N. truncata", ramets: [(code: "a"), (code: "b", from: "a", made: cutting, fate: given(on: "2024-04", to: "a neighbour"))]),
    (code: "Vei1", received: "N. veitchii", came_back: [(left: sold(on: "2023-06", to: "a visitor"), on: "2023-08-01")]),
])"#;

fn said(top: &BenchTop, line: &str) -> String {
    let words: Vec<&str> = line.split(' ').collect();
    let run = top.run(&words);
    assert_eq!(run.exit, Some(0), "{run}");
    run.stdout
}

#[test]
fn plants_and_pieces_are_listed_the_latest_first() {
    let top = BenchTop::sound().file("clones.ron", CLONES);
    let listed = said(&top, "list sold --format csv");
    let rows: Vec<&str> = listed.lines().filter(|line| line.contains("a ")).collect();
    assert_eq!(
        rows,
        [
            "Max1,sold 2024-05-01,a buyer,a pot of moss,maxima dark,",
            "Tru1-b,given away 2024-04,a neighbour,,,",
            "Vei1,sold 2023-06; back on 2023-08-01,a visitor,,,",
        ],
        "{listed}"
    );
}

#[test]
fn a_screen_and_the_sheet_of_plants_have_them_too() {
    let top = BenchTop::sound().file("clones.ron", CLONES);
    let shown = said(&top, "show Max1");
    let words = "to a buyer; price: a pot of moss; tag: \"maxima dark\"";
    assert!(shown.contains(words), "{shown}");
    let shown = said(&top, "show Tru1");
    assert!(shown.contains("to a neighbour"), "{shown}");
    let sheet = said(&top, "export plants --gone");
    assert!(
        sheet.contains("a buyer,a pot of moss,maxima dark"),
        "{sheet}"
    );
}
