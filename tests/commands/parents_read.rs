//! What `siblings` says of the readings of parents: the certain ones first, the possible ones as alternatives.

use crate::bench_top::BenchTop;
use crate::demo::screen_of;
use crate::small_records::{holds, of, said};
use serde_json::Value;

/// Ten seedlings of K, the first of 10.2 cm and one more than the one before, and a cross L of such parents.
fn with_parents(parents: &str, read: usize) -> BenchTop {
    let seedlings: String = (1..=10)
        .map(|n| format!("(number: \"{n}\", sowing: \"S1\"),"))
        .collect();
    let rows: String = (1..=read)
        .map(|n| format!("[\"{n}\", \"{:.1}\"],", 9.2 + n as f64))
        .collect();
    let offspring = format!(
        "(code: \"L\", parents: {parents}, sowings: [(code: \"S1\", on: \"2023-08-01\")], \
         seedlings: [(number: \"1\", sowing: \"S1\"), (number: \"2\", sowing: \"S1\")], \
         sittings: [(on: \"2025-05-01\", columns: [\"span cm\", \"banding\"], rows: [[\"1\", \"2.0\", \"1\"], [\"2\", \"2.5\", \"2\"]])])"
    );
    of(&format!(
        "sowings: [(code: \"S1\", on: \"2022-03-01\")], seedlings: [{seedlings}], \
         sittings: [(on: \"2025-03-01\", columns: [\"span cm\"], rows: [{rows}])]"
    ))
    .file("crosses/L.ron", &offspring)
}

#[test]
fn possible_parents_are_alternatives_and_the_certain_one_is_never_lost() {
    let one_of = |fathers: &[usize]| {
        let fathers: Vec<String> = fathers.iter().map(|n| format!("\"K-{n}\"")).collect();
        format!(
            "pollen_one_of(seed: \"K-10\", pollen: [{}])",
            fathers.join(", ")
        )
    };
    let nine: Vec<usize> = (1..=9).collect();
    for (parents, read, words) in [
        (
            "known(seed: \"K-2\", pollen: \"K-1\")",
            10,
            "♀ K-2 11.2 cm, ♂ K-1 10.2 cm",
        ),
        (
            &one_of(&[1, 2]),
            10,
            "♀ K-10 19.2 cm, ♂ K-1 10.2 cm or K-2 11.2 cm",
        ),
        (&one_of(&[1, 2]), 1, "♂ K-1 10.2 cm or another"),
        (
            &one_of(&nine),
            10,
            "♀ K-10 19.2 cm, ♂ K-1 10.2 cm or K-2 11.2 cm or K-3 12.2 cm or K-4 13.2 cm or K-5 14.2 cm or K-6 15.2 cm or K-7 16.2 cm or one of 2 others",
        ),
    ] {
        let answer = said(&with_parents(parents, read), "siblings L --trait span");
        holds(&answer, &[&format!("parents, at their own age: {words}")]);
    }
    let top = with_parents(&one_of(&nine), 10);
    let short = screen_of(160, top.path(), "siblings L").stdout;
    holds(
        &short,
        &["♀ 19.2 cm, ♂ 10.2 cm or 11.2 cm or 12.2 cm or one of 6 others"],
    );
}

#[test]
fn json_and_the_picture_say_who_is_certain() {
    let top = with_parents(
        "pollen_one_of(seed: \"K-10\", pollen: [\"K-1\", \"K-2\"])",
        10,
    );
    let answer = said(&top, "siblings L --trait span --json");
    let answer: Value = serde_json::from_str(&answer).unwrap();
    let parents = answer["traits"][0]["parents"].as_array().unwrap();
    let told: Vec<(&str, bool, bool)> = parents
        .iter()
        .map(|of| {
            (
                of["plant"].as_str().unwrap(),
                of["bore_the_seed"].as_bool().unwrap(),
                of["certain"].as_bool().unwrap(),
            )
        })
        .collect();
    assert_eq!(
        told,
        [
            ("K-10", true, true),
            ("K-1", false, false),
            ("K-2", false, false)
        ]
    );
    said(&top, "siblings L --trait span -o l.svg");
    let picture = top.text("l.svg");
    assert!(picture.contains("K-1, possible"), "{picture}");
    assert!(!picture.contains("K-10, possible"));
}
