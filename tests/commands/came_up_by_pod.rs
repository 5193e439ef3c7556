//! What came up of pods and crosses, compared: what no longer is counted has come up all the same.

use crate::small_records::{holds, of, said};

/// Two pods; S1 to S3 are of P1, S4 of P2, all sown on 2024-09-01. Each with its seeds and counts.
fn two_pods(sowings: [&str; 4]) -> String {
    let sowings: String = (1..)
        .zip(sowings)
        .map(|(n, of)| {
            let pod = if n < 4 { "P1" } else { "P2" };
            format!("(code: \"S{n}\", pod: \"{pod}\", on: \"2024-09-01\", {of}),")
        })
        .collect();
    format!("pods: [(code: \"P1\"), (code: \"P2\")], sowings: [{sowings}]")
}

fn counted(seeds: u32, counts: &[(&str, u32)]) -> String {
    let counts: String = counts
        .iter()
        .map(|(on, n)| format!("(on: \"{on}\", count: {n}),"))
        .collect();
    format!("seeds: {seeds}, germinated: [{counts}]")
}

/// The trays that came up were pricked out and counted no more; only the failed one was counted to the last.
#[test]
fn what_came_up_before_the_last_count_of_others_is_not_left_out() {
    let (up, less_up) = (
        counted(120, &[("2024-12-20", 70)]),
        counted(120, &[("2024-12-20", 55)]),
    );
    let (failed, other) = (
        counted(120, &[("2025-03-02", 0)]),
        counted(20, &[("2025-03-05", 9)]),
    );
    let top = of(&two_pods([&up, &less_up, &failed, &other]));
    holds(
        &said(&top, "siblings K"),
        &["not: Pods germinated differently", "not: 0 % of P1"],
    );
    let words = [
        "K.P1 125 to 240 of 360, 35–67 %; K.P2 9 of 20, 45 %",
        "no clear difference (Fisher's exact test, p at least 0.055)",
    ];
    holds(&said(&top, "growth K.P1 K.P2"), &words);
}

/// None up later is none up earlier, so the total of that day is known: 62 of 240 against 28 of 100.
#[test]
fn none_up_later_is_none_up_earlier() {
    let (up, failed) = (
        counted(120, &[("2024-12-20", 62)]),
        counted(120, &[("2025-03-02", 0)]),
    );
    let other = counted(100, &[("2024-12-20", 28)]);
    let page = two_pods([&up, &failed, "seeds: 5", &other]);
    let top = of(&page);
    let words = [
        "K.P1 62 of 240, 26 % (21–32 %); K.P2 28 of 100, 28 %",
        "no clear difference",
        "left out of the comparison, no count, or no number sown: K.S3",
    ];
    holds(&said(&top, "growth K.P1 K.P2"), &words);
    holds(&said(&top, "siblings K"), &["left out: K.S3"]);
}

/// 125 to 240 of 360 may be fewer than 5 of 20 or clearly more: nothing is said of it.
#[test]
fn ranges_that_do_not_decide_are_not_compared() {
    let up = counted(360, &[("2024-12-20", 125)]);
    let other = counted(20, &[("2025-03-05", 5)]);
    let top = of(&two_pods([&up, "seeds: 0", "seeds: 0", &other]));
    let words = [
        "came up by the last counts: K.P1 125 of 360",
        "not comparable: no day after sowing",
    ];
    holds(&said(&top, "growth K.P1 K.P2"), &words);
    holds(
        &said(&top, "siblings K"),
        &["not: ermination of the pods", "not: germinated differently"],
    );
}

/// At least 90 of 120 came up by the day on which of the other 9 of 100 were up: whatever came after, they differ.
#[test]
fn ranges_that_all_differ_are_a_difference() {
    let up = counted(120, &[("2024-11-01", 90)]);
    let other = counted(100, &[("2025-03-05", 9)]);
    let top = of(&two_pods([&up, "seeds: 0", "seeds: 0", &other]));
    let said = said(&top, "growth K.P1 K.P2");
    holds(
        &said,
        &[
            "came up by day 61 after sowing: K.P1 90 of 120",
            "K.P2 0 to 9 of 100, 0–9 %",
            "they differ",
        ],
    );
}

/// A sowing that is younger today than the day compared is left out by name, since nothing chose it but the calendar.
#[test]
fn a_sowing_not_that_old_yet_is_left_out_by_name() {
    let (up, other) = (
        counted(120, &[("2024-12-20", 62)]),
        counted(100, &[("2024-12-20", 60)]),
    );
    let late = counted(50, &[("2026-05-20", 0)]);
    let page = two_pods([&up, &late, "seeds: 0", &other]);
    let page = page.replacen(
        "S2\", pod: \"P1\", on: \"2024-09-01",
        "S2\", pod: \"P1\", on: \"2026-05-01",
        1,
    );
    holds(
        &said(&of(&page), "growth K.P1 K.P2"),
        &["K.P1 62 of 120", "not that old yet: K.S2"],
    );
}

/// Two looks on one day are one, the larger; none up on the day of sowing says nothing. (30 + 1)/2 lies between 14 and 30.
#[test]
fn two_counts_of_one_day_are_one() {
    let counts = [
        ("2024-10-20", 5),
        ("2024-10-30", 11),
        ("2024-10-30", 14),
        ("2024-11-29", 30),
    ];
    let with = |first: &[(&str, u32)]| {
        let counts = counted(60, &[first, &counts].concat());
        of(&format!(
            "sowings: [(code: \"S1\", on: \"2024-09-01\", {counts})]"
        ))
    };
    for top in [with(&[]), with(&[("2024-09-01", 0)])] {
        holds(
            &said(&top, "growth K"),
            &["K.S1 60 30 50 38 62 3 62 61", "not: on a day of its own"],
        );
    }
}
