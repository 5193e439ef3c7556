//! Readings by several methods, by several people and in several places: which count, and what is said of the others.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};
use serde_json::Value;

/// Seedlings of the sowings of two pods, as many of each as are named.
fn tray(of_pods: [usize; 2], rest: &str) -> BenchTop {
    let seedlings: String = (0..of_pods[0] + of_pods[1])
        .map(|at| {
            let sowing = if at < of_pods[0] { 1 } else { 2 };
            format!("(number: \"{}\", sowing: \"S{sowing}\"),", at + 1)
        })
        .collect();
    of(&format!(
        "pods: [(code: \"P1\"), (code: \"P2\")], sowings: [(code: \"S1\", pod: \"P1\", on: \"2022-03-01\"), \
         (code: \"S2\", pod: \"P2\", on: \"2022-03-01\")], seedlings: [{seedlings}], {rest}"
    ))
}

/// A sitting of leaf spans, or of steps of the rim's banding, of the plants from one on.
fn sitting(head: &str, from: usize, cells: &[&str]) -> String {
    let rows: String = (from..)
        .zip(cells)
        .map(|(n, cell)| format!("[\"{n}\", \"{cell}\"],"))
        .collect();
    format!("({head}, rows: [{rows}]),")
}

const RULER: &str = "on: \"2025-03-01\", method: \"ruler\", columns: [\"span cm\"]";
const PHOTO: &str = "on: \"2025-03-01\", method: \"photo\", columns: [\"span cm\"]";

/// Two plants of three read by two methods on one day: every screen has the size that most of their siblings were read by.
fn by_two_methods() -> BenchTop {
    let sittings =
        sitting(RULER, 1, &["10.0", "14.0", "12.0"]) + &sitting(PHOTO, 1, &["16.0", "18.0"]);
    let offspring = "(code: \"L\", parents: known(seed: \"K-1\", pollen: \"K-2\"), \
        sowings: [(code: \"S1\", on: \"2025-08-01\")], seedlings: [(number: \"1\", sowing: \"S1\")], \
        sittings: [(on: \"2026-05-01\", columns: [\"span cm\"], rows: [[\"1\", \"2.0\"]])])";
    tray([3, 0], &format!("sittings: [{sittings}]")).file("crosses/L.ron", offspring)
}

#[test]
fn of_two_methods_of_a_day_one_counts_on_every_screen() {
    let top = by_two_methods();
    for (question, words) in [
        (
            "siblings K",
            &[
                "12.0 (7.0–17.0)",
                "left out: 2 readings by another method",
                "not: 13.7",
            ][..],
        ),
        (
            "growth K",
            &[
                "median 12.0 cm",
                "left out 2 readings: 2 by another method",
                "not: 13.0",
            ],
        ),
        ("growth K-1", &["leaf span 10.0 cm", "not: 13.0"]),
        ("grade K.S1", &["12.0", "not: 13.0"]),
        (
            "pair K-1 K-2",
            &["10.0 (at 36.0 months)", "14.0 (at 36.0 months)", "12.0"],
        ),
        (
            "siblings L",
            &["parents, at their own age: ♀ K-1 10.0 cm, ♂ K-2 14.0 cm"],
        ),
        ("card K-1", &["10.0 cm"]),
    ] {
        holds(&said(&top, question), words);
    }
}

/// Steps of one day that contradict each other count nowhere, as a parent either.
#[test]
fn contradicting_steps_are_no_reading_of_a_parent() {
    let steps = "on: \"2025-03-01\", columns: [\"banding\"]";
    let sittings =
        sitting(steps, 1, &["1", "2", "3"]) + &sitting(&format!("{steps}, by: \"you\""), 1, &["3"]);
    let top = tray([3, 0], &format!("sittings: [{sittings}]"));
    let pair = said(&top, "pair K-1 K-2 --json");
    let pair: Value = serde_json::from_str(&pair).unwrap();
    let banding = &pair["traits"][0];
    assert!(banding["seed"].is_null(), "{banding}");
    assert_eq!(banding["pollen"]["mean"], 2.0);
    assert!(banding["midparent"].is_null());
    holds(
        &said(&top, "siblings K --trait banding"),
        &["1 plant read differently in two sittings of the day"],
    );
}

/// A plant that was read is not called unread, and the reason is the one for which its reading does not count.
#[test]
fn the_reason_is_that_of_the_reading() {
    let six = ["10", "11", "12", "13", "14", "15"];
    let other = ["16"];
    let photo = tray(
        [7, 0],
        &format!(
            "sittings: [{}{}]",
            sitting(RULER, 1, &six),
            sitting(PHOTO, 7, &other)
        ),
    );
    let year = "on: \"2024-03-01\", method: \"ruler\", columns: [\"span cm\"]";
    let age = tray(
        [7, 0],
        &format!(
            "sittings: [{}{}]",
            sitting(RULER, 1, &six),
            sitting(year, 7, &other)
        ),
    );
    for (top, why) in [
        (&photo, "by another method"),
        (&age, "at other or unknown ages only"),
    ] {
        let unlike = match why {
            "by another method" => "not: other or unknown ages",
            _ => "not: another method",
        };
        let plant = format!("1 plant read {why}");
        holds(&said(top, "siblings K --trait span"), &[&plant, unlike]);
        let words = [
            format!("K-7 – not classed – – read {why}"),
            "n 6, 1 read, but not comparable".to_owned(),
            "not: unread".to_owned(),
        ];
        let words: Vec<&str> = words.iter().map(String::as_str).collect();
        holds(&said(top, "grade K.S1"), &words);
    }
    holds(
        &said(&photo, "select K --weigh span=1 --keep 2"),
        &["leaf span read at 36.0 months by another method"],
    );
}

/// Two pods of ten: the second read on the same day in another way, of which nothing was said.
fn two_pods(first: &str, second: &str) -> BenchTop {
    let spans = |apart: f64| -> Vec<String> {
        (0..10)
            .map(|n| format!("{:.1}", 10.0 + apart * f64::from(n)))
            .collect()
    };
    let (one, other) = (spans(0.1), spans(1.0));
    let one: Vec<&str> = one.iter().map(String::as_str).collect();
    let other: Vec<&str> = other.iter().map(String::as_str).collect();
    let sittings = sitting(first, 1, &one) + &sitting(second, 11, &other);
    tray([10, 10], &format!("sittings: [{sittings}]"))
}

#[test]
fn spreads_and_pods_have_the_caution_that_growth_has() {
    let read = |rest: &str| format!("on: \"2025-03-01\", columns: [\"span cm\"], {rest}");
    let here = read("method: \"ruler\", by: \"me\", place: \"shelf 1\"");
    let there = read("method: \"ruler\", by: \"you\", place: \"shelf 2\"");
    let photo = read("method: \"photo\", by: \"you\", place: \"shelf 2\"");
    let unlike = two_pods(&here, &there);
    let caution = "not grown alike (differed: place and read by; not recorded: light and pot), so a difference may come from that";
    for (question, whom) in [
        ("growth K.P1 K.P2", "K.P1 and K.P2 were"),
        ("variation K.P1 K.P2", "K.P1 and K.P2 were"),
        ("siblings K", "the pods were"),
    ] {
        holds(&said(&unlike, question), &[&format!("{whom} {caution}")]);
    }
    holds(
        &said(&two_pods(&here, &photo), "variation K.P1 K.P2"),
        &["differed: place, method and read by"],
    );
    // Another method is the reason, not another age; growth would mix the two.
    holds(
        &said(&two_pods(&here, &photo), "siblings K"),
        &[
            "not comparable with the others: P",
            "read by another method",
            "not: read at other",
            "not: growth compares",
        ],
    );
    let alike = two_pods(&here, &here);
    holds(
        &said(&alike, "siblings K"),
        &[
            "not: not grown alike",
            "whether the pods were grown alike is not known (not recorded: light and pot)",
        ],
    );
}

/// Growth is the difference of two readings: how the first was made matters as much as how the last was.
#[test]
fn rates_say_how_both_readings_were_made() {
    let read = |on: &str, rest: &str| format!("on: \"{on}\", columns: [\"span cm\"], {rest}");
    let ruler = "method: \"ruler\", by: \"me\", place: \"shelf 1\"";
    let photo = "method: \"photo\", by: \"you\", place: \"shelf 2\"";
    let sittings = sitting(&read("2024-03-01", photo), 1, &["4.0", "4.2", "4.4", "4.6"])
        + &sitting(&read("2024-03-01", ruler), 5, &["4.0", "4.2", "4.4", "4.6"])
        + &sitting(
            &read("2025-03-01", ruler),
            1,
            &["9.0", "9.2", "9.4", "9.6", "5.0", "5.2", "5.4", "5.6"],
        );
    let top = tray([4, 4], &format!("sittings: [{sittings}]"));
    let words = [
        "growing from 24 to 36 months: K.S1 and K.S2 were not grown alike (differed: place, method and read by",
        "K.S1: read by several methods (\"photo\" and \"ruler\"), so its growth may come from that",
        "not: K.S2: read by several",
    ];
    holds(&said(&top, "growth K.S1 K.S2"), &words);
    holds(&said(&top, "growth K.S1"), &[words[1]]);
    holds(
        &said(&top, "grade K.S1"),
        &["growth of 4 plants is since a reading by another method, and may come from that"],
    );
    holds(
        &said(&top, "grade K.S2"),
        &["+1.7 %", "not: another method"],
    );
}
