//! Several groups compared two by two: the words allow for the number of comparisons.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};
use serde_json::Value;

/// Leaf spans of five pods of eight, all drawn from one population of mean 10 and SD 1.5.
const SPANS: [f64; 40] = [
    10.1, 11.9, 8.6, 11.5, 9.6, 9.6, 12.8, 10.2, 9.9, 11.1, 11.7, 10.0, 10.9, 8.5, 9.4, 9.3, 8.0,
    7.7, 7.6, 9.6, 9.7, 9.5, 10.1, 8.0, 9.9, 10.4, 11.1, 8.7, 9.4, 7.0, 9.2, 6.7, 7.9, 11.7, 6.7,
    11.2, 10.5, 9.5, 10.7, 10.8,
];

/// The five pods, everything on record alike; the first is larger by so much.
fn pods(larger_by: f64) -> BenchTop {
    let each = |text: &dyn Fn(usize) -> String| (1..=5).map(text).collect::<String>();
    let pods = each(&|n| format!("(code: \"P{n}\"),"));
    let sowings =
        each(&|n| format!("(code: \"S{n}\", pod: \"P{n}\", on: \"2022-03-01\", place: \"box\"),"));
    let plants = SPANS.iter().enumerate();
    let (seedlings, rows): (String, String) = plants
        .map(|(at, span)| {
            let (n, sowing) = (at + 1, at / 8 + 1);
            let span = span + if sowing == 1 { larger_by } else { 0.0 };
            let pot = "pots: [(on: \"2022-12-01\", pot: \"5 cm\")]";
            (
                format!("(number: \"{n}\", sowing: \"S{sowing}\", {pot}),"),
                format!("[\"{n}\", \"{span:.1}\"],"),
            )
        })
        .unzip();
    let head = "on: \"2024-03-01\", place: \"shelf\", light: \"LED\", method: \"ruler\", by: \"me\", columns: [\"span cm\"]";
    of(&format!(
        "pods: [{pods}], sowings: [{sowings}], seedlings: [{seedlings}], sittings: [({head}, rows: [{rows}])]"
    ))
}

const ALL: &str = "growth K.S1 K.S2 K.S3 K.S4 K.S5";

fn comparisons(top: &BenchTop, question: &str) -> Vec<Value> {
    let answer = said(top, &format!("{question} --json"));
    let answer: Value = serde_json::from_str(&answer).unwrap();
    answer["comparisons"].as_array().unwrap().clone()
}

/// A pair is said to differ where it would be by itself and its probability, adjusted for the ten that are compared, is below
/// one in twenty. The twin asks for each pair by itself and adjusts by the definition (Holm 1979): of all probabilities no
/// larger than its own the largest, each times the number of those no smaller than it.
#[test]
fn the_words_follow_the_adjusted_probability() {
    for (larger_by, clearly) in [(0.0, 0), (6.0, 4)] {
        let top = pods(larger_by);
        let found = comparisons(&top, ALL);
        let alone: Vec<Value> = found
            .iter()
            .flat_map(|pair| {
                let [one, other] = [0, 1].map(|side| pair["of"][side].as_str().unwrap().to_owned());
                comparisons(&top, &format!("growth {one} {other}"))
            })
            .collect();
        let p: Vec<f64> = alone.iter().map(|of| of["p"].as_f64().unwrap()).collect();
        let adjusted = |own: f64| {
            let no_larger = p.iter().filter(|p| **p <= own);
            let each = no_larger.map(|one| one * p.iter().filter(|p| *p >= one).count() as f64);
            each.fold(0.0, f64::max).min(1.0)
        };
        for ((pair, alone), p) in found.iter().zip(&alone).zip(&p) {
            let told = pair["p"].as_f64().unwrap();
            assert!((told - adjusted(*p)).abs() < 1e-12, "{told} {p}");
            let word = match alone["verdict"].as_str().unwrap() {
                "clearly" if adjusted(*p) < 0.05 => "clearly",
                _ => "no_clear_difference",
            };
            assert_eq!(pair["verdict"], word, "{pair}");
            assert_eq!(pair["interval"], alone["interval"]);
        }
        let is_clear = |of: &&Value| of["verdict"] == "clearly";
        assert_eq!(found.iter().filter(is_clear).count(), clearly);
        // By themselves more pairs seem to differ, also of one population.
        assert!(alone.iter().filter(is_clear).count() > clearly);
    }
}

#[test]
fn the_number_of_comparisons_is_said() {
    let answer = said(&pods(0.0), ALL);
    let words = [
        "none of 10 pairs shows a clear difference",
        "No clear difference between K.S1 and K.S3 at 24 months",
        "after allowing for 10 comparisons",
        "the words allow for 10 comparisons (Holm); the interval of each pair stands for that pair alone",
        "not: clearly larger",
    ];
    holds(&answer, &words);
    let two = said(&pods(0.0), "growth K.S1 K.S3");
    holds(
        &two,
        &["K.S1 is clearly larger than K.S3", "not: comparisons"],
    );
}

/// Two crosses of two pods each: of so few the limits of g, which pools their spreads, contradict those of the difference.
#[test]
fn a_few_pods_have_a_mean_of_pods_and_no_g_that_contradicts_it() {
    let tray = |spans: [&str; 4]| {
        let rows: String = (1..)
            .zip(spans)
            .map(|(n, span)| format!("[\"{n}\", \"{span}\"],"))
            .collect();
        let seedlings: String = (1..=4)
            .map(|n| format!("(number: \"{n}\", sowing: \"S{}\"),", (n + 1) / 2))
            .collect();
        format!(
            "pods: [(code: \"P1\"), (code: \"P2\")], sowings: [(code: \"S1\", pod: \"P1\", on: \"2022-03-01\"), \
             (code: \"S2\", pod: \"P2\", on: \"2022-03-01\")], seedlings: [{seedlings}], \
             sittings: [(on: \"2024-03-01\", columns: [\"span cm\"], rows: [{rows}])]"
        )
    };
    let other = tray(["11.3", "11.5", "11.4", "11.6"]);
    let other = format!("(code: \"L\", parents: known(seed: \"V\", pollen: \"S\"), {other})");
    let top = of(&tray(["7.9", "8.1", "8.9", "9.1"])).file("crosses/L.ron", &other);
    let pair = &comparisons(&top, "growth K L")[0];
    assert_eq!(pair["unit"], "pod");
    let limits = [0, 1].map(|at| pair["interval"][at].as_f64().unwrap());
    assert!(limits[0] < 0.0 && limits[1] > 0.0, "{pair}");
    assert!(pair["g"].is_null(), "{pair}");
    holds(
        &said(&top, "growth K L"),
        &["mean of pods", "not: median mean SD"],
    );
}
