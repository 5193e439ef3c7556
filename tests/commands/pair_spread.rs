//! The spread that `pair` expects: each plant counts once, in however many sittings it was read.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};
use serde_json::Value;

const SPANS: [f64; 9] = [8.9, 12.0, 9.4, 13.1, 10.2, 7.7, 11.5, 10.9, 9.8];

/// Seedlings of one sowing and their sittings.
fn tray(seedlings: usize, sittings: &str) -> BenchTop {
    let seedlings: String = (1..=seedlings)
        .map(|n| format!("(number: \"{n}\", sowing: \"S1\"),"))
        .collect();
    of(&format!(
        "sowings: [(code: \"S1\", on: \"2022-03-01\")], seedlings: [{seedlings}], sittings: [{sittings}]"
    ))
}

fn sitting(on: &str, place: &str, of: &[usize]) -> String {
    let rows: String = (of.iter())
        .map(|&n| format!("[\"{n}\", \"{}\"],", SPANS[n - 1]))
        .collect();
    format!(
        "(on: \"{on}\", place: \"{place}\", method: \"ruler\", columns: [\"span cm\"], rows: [{rows}]),"
    )
}

fn first_trait(top: &BenchTop, pair: &str) -> Value {
    let answer = said(top, &format!("pair {pair} --json"));
    let answer: Value = serde_json::from_str(&answer).unwrap();
    answer["traits"][0].clone()
}

/// The least standard deviation that is expected, worked out in the plainest way: squares about the mean of each group over
/// the plants beyond one of each; a pod of two species has ½ V inherited, one of two F1 plants at least 1.5 V, and 1.5 V in
/// either are not.
fn expected(groups: &[&[usize]]) -> f64 {
    let (mut squares, mut freedom) = (0.0, 0.0);
    for group in groups {
        let n = group.len() as f64;
        let mean = group.iter().map(|at| SPANS[at - 1]).sum::<f64>() / n;
        squares += (group.iter())
            .map(|at| (SPANS[at - 1] - mean).powi(2))
            .sum::<f64>();
        freedom += n - 1.0;
    }
    (squares / freedom * (1.5 + 1.5) / (0.5 + 1.5)).sqrt()
}

#[test]
fn however_its_sittings_are_written_a_plant_counts_once() {
    let all: Vec<usize> = (1..=9).collect();
    let day = "2025-03-01";
    let each: String = all.iter().map(|n| sitting(day, "shelf", &[*n])).collect();
    let again = sitting(day, "shelf", &all) + &sitting("2025-03-08", "shelf", &[1, 2, 3]);
    let cut = sitting(day, "shelf", &all[..5]) + &sitting(day, "shelf", &all[5..]);
    let places = sitting(day, "shelf", &all[..5]) + &sitting(day, "porch", &all[5..]);
    let days = sitting(day, "shelf", &all[..5]) + &sitting("2025-03-08", "shelf", &all[5..]);
    for (name, sittings, groups) in [
        ("one sitting", sitting(day, "shelf", &all), &[&all[..]][..]),
        ("cut in two", cut, &[&all[..]]),
        ("plant by plant", each, &[&all[..]]),
        ("three of them again", again, &[&all[..]]),
        ("two places", places, &[&all[..5], &all[5..]]),
        ("two days", days, &[&all[..5], &all[5..]]),
    ] {
        let found = first_trait(&tray(9, &sittings), "K-1 K-2");
        let least = found["deviation"][0].as_f64().unwrap();
        assert!((least - expected(groups)).abs() < 1e-9, "{name}: {found}");
        assert_eq!(found["deviation_from"]["plants"], 9, "{name}");
    }
}

/// Two plants read four times are two plants, and steps of a scale read at other ages are of other ages.
#[test]
fn few_plants_read_often_tell_no_spread() {
    let weeks = ["01", "08", "15", "22"];
    let weekly: String = weeks
        .iter()
        .map(|day| sitting(&format!("2025-03-{day}"), "shelf", &[1, 2]))
        .collect();
    let steps =
        |on: &str, rows: &str| format!("(on: \"{on}\", columns: [\"banding\"], rows: [{rows}]),");
    let both = "[\"1\", \"1\"], [\"2\", \"3\"], [\"3\", \"2\"]";
    let yearly: String = (["2023-04-01", "2024-04-01", "2025-04-01"].iter())
        .map(|on| steps(on, both))
        .chain([
            steps("2024-09-01", "[\"4\", \"2\"]"),
            steps("2025-09-01", "[\"5\", \"2\"]"),
        ])
        .collect();
    for (sittings, pair, why) in [
        (weekly, "K-1 K-2", "too few"),
        (yearly, "K-4 K-5", "no one age"),
    ] {
        let top = tray(5, &sittings);
        let found = first_trait(&top, pair);
        assert!(found["deviation"].is_null(), "{found}");
        assert!(found["deviation_from"].is_null());
        holds(&said(&top, &format!("pair {pair}")), &[why]);
    }
}
