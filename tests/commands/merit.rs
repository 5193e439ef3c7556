//! `podbook merit`: one trait, several by weight, what is refused and why.

use crate::bench_top::BenchTop;
use crate::demo::{ask, demo};
use insta::assert_snapshot;

#[test]
fn one_trait() {
    assert_snapshot!(demo("merit --trait span"));
}

#[test]
fn two_traits_by_weight() {
    assert_snapshot!(demo("merit --trait span=2 --trait banding"));
}

#[test]
fn every_row_has_its_error_and_reliability() {
    let run = demo("merit --trait span --trait banding --json");
    let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("it is JSON");
    let rows = answer["rows"].as_array().expect("a list");
    assert!(rows.len() > 40);
    for row in rows {
        assert!(
            row["index_error"].as_f64().expect("a number") > 0.0,
            "{row}"
        );
        for of in row["of_traits"].as_array().expect("a list") {
            let reliability = of["reliability"].as_f64().expect("a number");
            assert!((0.0..1.0).contains(&reliability), "{row}");
            assert!(of["error"].as_f64().expect("a number") > 0.0, "{row}");
        }
    }
}

#[test]
fn parts_that_cannot_be_are_refused() {
    assert_snapshot!(demo("merit --trait span --heritability 1.2"));
    assert_snapshot!(demo(
        "merit --trait span --heritability 0.8 --permanent 0.4"
    ));
    assert_snapshot!(demo("merit --trait bandng"));
    assert_snapshot!(demo("merit --trait span --estimate"));
    assert_snapshot!(demo("merit"));
}

#[test]
fn readings_too_few_are_told() {
    assert_snapshot!(ask(BenchTop::sound().path(), "merit --trait ratio"));
}
