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

/// Ten seedlings of one pod, all 5 cm: nothing tells them apart, and that is said instead of a row of zeros.
#[test]
fn readings_all_the_same_are_refused() {
    let readings: Vec<(u32, &str)> = (1..=10).map(|number| (number, "5.0")).collect();
    let top = one_cross(&readings);
    assert_snapshot!(ask(top.path(), "merit --trait span"));
}

fn answer(question: &str) -> serde_json::Value {
    serde_json::from_str(&demo(question).stdout).expect("it is JSON")
}

/// The limits of a length are those of the logarithm turned to percent; reliability is had from the error within the
/// species and the inbreeding that `kin` gives.
#[test]
fn limits_and_reliability_can_be_had_from_the_errors_told() {
    let found = answer("merit --trait span --json");
    let kin = answer("kin --inbreeding --json");
    let number = |value: &serde_json::Value| value.as_f64().expect("a number");
    let rows = found["rows"].as_array().expect("a list");
    let mut inbred = 0;
    for row in rows {
        let of = &row["of_traits"][0];
        let merit = (1.0 + number(&of["merit"]) / 100.0).ln();
        for (limit, sign) in [("low", -1.0), ("high", 1.0)] {
            let wanted = 100.0 * ((merit + sign * number(&of["error"])).exp() - 1.0);
            assert!((number(&of[limit]) - wanted).abs() < 1e-6, "{row}");
        }
        let listed = kin["rows"].as_array().expect("a list");
        let own = listed.iter().find(|plant| plant["id"] == row["id"]);
        let inbreeding = number(&own.expect("it is listed")["inbreeding"]);
        inbred += usize::from(inbreeding > 0.0);
        let error = number(&of["error_within_species"]);
        let reliability = 1.0 - error * error / (1.0 + inbreeding);
        assert!(
            (number(&of["reliability"]) - reliability).abs() < 1e-9,
            "{row}"
        );
    }
    assert!(inbred > 3, "the inbred are among them");
}

/// Seedlings of one cross, read; its parents, unread.
fn one_cross(readings: &[(u32, &str)]) -> BenchTop {
    let seedlings: String = readings
        .iter()
        .map(|(number, _)| format!("(number: \"{number}\", sowing: \"S1\"),"))
        .collect();
    let rows: String = readings
        .iter()
        .map(|(number, span)| format!("[\"{number}\", \"{span}\"],"))
        .collect();
    let page = format!(
        "(code: \"X20-09\", parents: known(seed: \"V1\", pollen: \"T1\"), confidence: witnessed, \
         sowings: [(code: \"S1\", on: \"2020-09-01\")], seedlings: [{seedlings}], \
         sittings: [(on: \"2022-05-05\", columns: [\"span cm\"], rows: [{rows}])])"
    );
    let clones = "(clones: [(code: \"V1\", received: \"N. ventricosa\", confidence: claim), \
                  (code: \"T1\", received: \"N. truncata\", confidence: claim), \
                  (code: \"L1\", received: \"N. lowii\", confidence: claim)])";
    BenchTop::with([
        ("registry.ron", include_str!("sound/registry.ron")),
        ("species.ron", include_str!("sound/species.ron")),
        ("clones.ron", clones),
    ])
    .file("crosses/X20-09.ron", &page)
}

#[test]
fn parents_of_the_only_cross_read_are_not_called_without_relatives() {
    let top = one_cross(&[(1, "4.0"), (2, "5.0"), (3, "6.5")]);
    let run = ask(top.path(), "merit --trait span");
    let out = run.stdout.replace("\n ", "");
    assert!(
        out.contains("left out: 2 plants: one cross only was read, and its parents cannot be told apart from its mean"),
        "{run}"
    );
    assert!(
        out.contains("left out: 1 plant without any read relative"),
        "{run}"
    );
}

#[test]
fn a_trait_counts_once_and_for_something() {
    let twice = demo("merit --trait span --trait span=2");
    assert_eq!(twice.exit, Some(2), "{twice}");
    assert!(twice.stderr.contains("`span` is named twice"), "{twice}");
    let nothing = demo("merit --trait span --trait banding=0");
    assert_eq!(nothing.exit, Some(2), "{nothing}");
    assert!(
        nothing.stderr.contains("the weight of `banding` is 0"),
        "{nothing}"
    );
}
