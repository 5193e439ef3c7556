//! `podbook kin` and `podbook diversity`: pairs, squares, all plants, and plain tables of any pedigree.

use crate::bench_top::{BenchTop, Run};
use crate::demo::{ask, demo};
use insta::assert_snapshot;

/// A plain table in an otherwise empty folder, and a question of it.
fn table(text: &str, question: &str) -> Run {
    let top = BenchTop::empty().file("herd.csv", text);
    ask(top.path(), question)
}

/// Children before their parents, a parent without a row of its own, both ways of writing an unknown one.
const ANY_ORDER: &str = "plant,seed parent,pollen parent\nx,d,c\nd,a,b\nc,a,b\na,,?\nb,e,\n";

#[test]
fn a_pair_with_the_lines_that_make_it() {
    assert_snapshot!(demo("kin X22-02-1 X22-02-5"));
}

#[test]
fn a_pair_that_may_have_other_parents() {
    assert_snapshot!(demo("kin X18-01-3 X20-01-5"));
}

#[test]
fn several_plants_as_a_square() {
    assert_snapshot!(demo("kin Ven1 X22-02-1 X18-01-3"));
}

#[test]
fn every_plant_of_the_registry_siblings_together() {
    assert_snapshot!(demo("kin --inbreeding"));
}

#[test]
fn a_plain_table_in_any_order() {
    assert_snapshot!(table(ANY_ORDER, "kin --inbreeding --table herd.csv"));
}

/// Full siblings of unrelated parents: kinship a quarter, so their offspring is inbred by a quarter (Wright 1922).
#[test]
fn json_gives_every_figure() {
    let run = table(ANY_ORDER, "kin --inbreeding --table herd.csv --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let rows = answer["rows"].as_array().expect("a list");
    let of = |id: &str| {
        let row = rows.iter().find(|row| row["id"] == id);
        row.expect("it is there")["inbreeding"].clone()
    };
    assert_eq!(of("x"), 0.25);
    assert_eq!(
        rows.len(),
        6,
        "a parent without a row of its own counts too: {answer}"
    );
    let run = table(ANY_ORDER, "kin c d x --table herd.csv --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let kinships: Vec<f64> = answer["pairs"]
        .as_array()
        .expect("a list")
        .iter()
        .map(|pair| pair["kinship"].as_f64().expect("a number"))
        .collect();
    // c with itself, c with d, c with x, d with itself, d with x, x with itself.
    assert_eq!(kinships, [0.5, 0.25, 0.375, 0.5, 0.375, 0.625]);
}

#[test]
fn faulty_tables_are_refused_with_their_lines() {
    let asked = |text: &str| table(text, "kin --inbreeding --table herd.csv");
    assert_snapshot!(asked("plant,seed,pollen\na,b,\nb,a,\n"));
    assert_snapshot!(asked("plant,seed,pollen\na,a,\n"));
    assert_snapshot!(asked("plant,seed,pollen\na,,\nb,,\na,b,\n"));
    assert_snapshot!(asked("plant,seed\na,b\n"));
    assert_snapshot!(asked("plant,seed,pollen\na,,\nb,a\n"));
    assert_snapshot!(asked("plant,seed,pollen\n,a,b\n"));
    assert_snapshot!(asked(""));
}

#[test]
fn plants_of_a_table_that_are_not_in_it() {
    assert_snapshot!(table(ANY_ORDER, "kin a nobody --table herd.csv"));
    assert_snapshot!(table(ANY_ORDER, "kin a --table herd.csv"));
    assert_snapshot!(table(ANY_ORDER, "kin a b --table lost.csv"));
}

#[test]
fn variety_of_all_that_are_here() {
    assert_snapshot!(demo("diversity"));
}

#[test]
fn variety_of_one_cross() {
    assert_snapshot!(demo("diversity --cross X18-01"));
}

#[test]
fn variety_of_nothing_is_refused() {
    assert_snapshot!(demo("diversity --species hamata --sex female"));
}

/// A person reads siblings as one row; a spreadsheet gets each.
#[test]
fn a_spreadsheet_has_a_row_for_every_plant() {
    let run = demo("kin --inbreeding --format csv");
    assert!(run.stdout.contains("\r\nX22-02-7,0.1250\r\n"), "{run}");
    let rows = run.stdout.lines().count();
    assert_eq!(rows, 79, "78 plants and a heading: {run}");
    let run = demo("diversity --cross X18-01 --format csv");
    assert!(run.stdout.contains("\r\nX18-01-7,0.2727,2.27,1,"), "{run}");
}

#[test]
fn lines_that_differ_are_told_apart_and_lines_of_nothing_left_out() {
    let paths = |question: &str| -> Vec<(String, f64)> {
        let run = demo(question);
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
        let rows = answer["paths"].as_array().expect("a list");
        rows.iter()
            .map(|row| {
                let path = row["path"].as_str().expect("words").to_owned();
                (path, row["kinship"].as_f64().expect("a number"))
            })
            .collect()
    };
    for question in ["kin X18-01-4 X18-01-5 --json", "kin Tru1 Tru2 --json"] {
        let found = paths(question);
        let mut words: Vec<&String> = found.iter().map(|(path, _)| path).collect();
        words.sort();
        words.dedup();
        assert_eq!(words.len(), found.len(), "{found:?}");
        assert!(found.iter().all(|(_, adds)| *adds > 0.0), "{found:?}");
        let sum: f64 = found.iter().map(|(_, adds)| adds).sum();
        assert!((sum - 0.25).abs() < 1e-12, "{found:?}");
    }
    let shared = paths("kin X18-01-4 X18-01-5 --json");
    assert!(
        shared
            .iter()
            .any(|(path, _)| path.ends_with(", if of X15-02-3 × X13-01-5")),
        "{shared:?}"
    );
}

#[test]
fn what_is_no_plant_is_said_with_plants_to_ask_for() {
    let run = demo("kin X22-02 X18-01-4");
    assert_eq!(run.exit, Some(2));
    assert!(
        run.stderr
            .contains("`X22-02` is a cross, not a plant; name a plant of it, such as X22-02-1"),
        "{run}"
    );
    let run = demo("kin ventricosa Ven1");
    assert!(
        run.stderr
            .contains("`ventricosa` is a species, not a plant; name a plant of it, such as Ven1"),
        "{run}"
    );
}
