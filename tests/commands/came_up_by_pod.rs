//! What came up of pods and crosses, compared: what no longer is counted has come up all the same.

use crate::bench_top::BenchTop;
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

/// Crosses X1 and X2 with one sowing each.
fn two_crosses(sowings: [&str; 2]) -> BenchTop {
    (1..).zip(sowings).fold(of(""), |top, (n, sowing)| {
        let page = format!("(code: \"X{n}\", parents: unknown, sowings: [{sowing}])");
        top.file(&format!("crosses/X{n}.ron"), &page)
    })
}

fn sown(on: &str, counts: &str) -> String {
    format!("(code: \"S1\", on: \"{on}\", {counts})")
}

/// Counted 21 to 51 days after sowing: by day 40 it may have been 0 to 40 of 40. Of one day that the month allows both are 15.
#[test]
fn days_vague_by_a_month_are_compared_by_all_that_they_allow() {
    let counts = [("2024-03-31", 0), ("2024-04-10", 0), ("2024-04-30", 15)];
    let first = sown("2024-03-01", &counted(40, &counts));
    let with = |on: &str| {
        let second = sown(on, &counted(40, &[("2024-04-21", 15)]));
        said(&two_crosses([&first, &second]), "growth X1 X2")
    };
    let exact = "by day 60 after sowing: X1 15 of 40, 38 % (24–53 %); X2 15 of 40";
    holds(&with("2024-03-01"), &[exact, "p = 1.00"]);
    let by = "X2 15 of 40, 38 % (24–53 %) by days 21 to 51; not comparable";
    holds(&with("2024-03"), &[by, "not: they differ"]);
}

/// A count is no earlier than its sowing.
#[test]
fn no_count_is_before_its_sowing() {
    let first = sown("2023-01-21", &counted(100, &[("2023-01", 0)]));
    let second = sown(
        "2023-02-22",
        &counted(60, &[("2023-03", 4), ("2023-03-25", 4)]),
    );
    let said = said(&two_crosses([&first, &second]), "growth X1 X2");
    holds(
        &said,
        &["not: by day -", "X1 0 of 100, 0 % (0–4 %) by days 0 to 10"],
    );
}

/// Of a sowing without a day no count has a day after it, so a total with it has none either.
#[test]
fn a_total_with_a_sowing_of_no_day_has_no_day() {
    let undated = format!("(code: \"S1\", {}),", counted(20, &[("2023-10-01", 3)]));
    let dated = sown("2023-08-12", &counted(40, &[("2023-11", 17)])).replace("S1", "S2");
    let other = sown("2023-01-01", &counted(40, &[("2023-12-01", 20)]));
    let said = said(
        &two_crosses([&format!("{undated}{dated}"), &other]),
        "growth X1 X2",
    );
    holds(&said, &["X1 20 of 60, 33 % (23–46 %); X2 20 of 40"]);
}

/// Seed sown some time in a year came up after any number of days.
#[test]
fn days_vague_by_more_than_a_month_give_no_times() {
    let counts = counted(
        60,
        &[("2023-08-01", 11), ("2023-10-05", 38), ("2023-11-05", 43)],
    );
    let of = |on: &str| {
        said(
            &of(&format!("sowings: [{}]", sown(on, &counts))),
            "growth K",
        )
    };
    holds(&of("2023-05"), &["K.S1 60 43 72 59 81 3 103 102 129"]);
    holds(
        &of("2023"),
        &[
            "K.S1 60 43 72 59 81 3 – – –",
            "the dates are too vague to say how many days after sowing",
        ],
    );
}
