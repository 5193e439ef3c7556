//! Plants that may be of several sowings of one pod, since they or the pots they came out of were mixed up; parents that were
//! mixed up after they were used.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};

/// Twelve seedlings of two sowings of one pod, read on one day, with what each says beside; number 1 to 6 are of the first.
fn read(of_each: impl Fn(usize) -> String, pots: &str, second: &str) -> BenchTop {
    let seedlings = (1..=12).map(|n| format!("(number: \"{n}\", {}),", of_each(n)));
    let spans = (1..=12).map(|n| 4 + n % 6 + if n > 6 { 0 } else { 8 });
    let rows = spans
        .zip(1..)
        .map(|(span, n)| format!("[\"{n}\", \"{span}\"],"));
    let (seedlings, rows) = (seedlings.collect::<String>(), rows.collect::<String>());
    of(&format!(
        "confidence: witnessed, pods: [(code: \"P1\")], sowings: [(code: \"S1\", pod: \"P1\", on: \"2024-03-01\"), \
         (code: \"S2\", pod: \"P1\", on: \"{second}\")], community_pots: [{pots}], seedlings: [{seedlings}], \
         sittings: [(on: \"2025-12-01\", place: \"shelf\", method: \"ruler\", by: \"me\", light: \"LED\", \
         columns: [\"span cm\"], rows: [{rows}])]"
    ))
}

fn of_sowing(n: usize) -> &'static str {
    if n < 7 {
        "sowing: \"S1\""
    } else {
        "sowing: \"S2\""
    }
}

/// Numbered out of two pots that were mixed up on 2024-12-01.
fn out_of_pots(numbered: &str, second: &str) -> BenchTop {
    let pot = |n| if n < 7 { "T1" } else { "T2" };
    let of_each = |n| format!("community_pot: \"{}\", numbered: \"{numbered}\"", pot(n));
    let pots = "(code: \"T1\", sowing: \"S1\", alive: [(on: \"2024-10-01\", count: 20)], muddled: [(on: \"2024-12-01\", with: [\"K.T2\"])]), \
                (code: \"T2\", sowing: \"S2\", muddled: [(on: \"2024-12-01\", with: [\"K.T1\"])])";
    read(of_each, pots, second)
}

/// K-1 mixed up with K-2 and before that K-2 with K-7 of the other sowing, on these days.
fn chain([one_and_two, two_and_seven]: [&str; 2]) -> BenchTop {
    let of_each = |n| {
        let muddled = match n {
            1 => format!(", muddled: [(on: \"{one_and_two}\", with: [\"K-2\"])]"),
            2 => format!(
                ", muddled: [(on: \"{two_and_seven}\", with: [\"K-7\"]), (on: \"{one_and_two}\", with: [\"K-1\"])]"
            ),
            7 => format!(", muddled: [(on: \"{two_and_seven}\", with: [\"K-2\"])]"),
            _ => String::new(),
        };
        format!("{}{muddled}", of_sowing(n))
    };
    read(of_each, "", "2024-08-01")
}

/// Every plant mixed up with one of the other sowing before it was read.
fn pairs(second: &str) -> BenchTop {
    let of_each = |n| {
        let other = if n < 7 { n + 6 } else { n - 6 };
        let muddled = format!("muddled: [(on: \"2024-12-01\", with: [\"K-{other}\"])]");
        format!("{}, {muddled}", of_sowing(n))
    };
    read(of_each, "", second)
}

const NOT_COUNTED: &str =
    "12 numbered seedlings may come from another sowing, pod or cross (mixed up): not counted here";

#[test]
fn seedlings_out_of_pots_that_were_mixed_up_are_of_either_sowing() {
    let top = out_of_pots("2025-03-01", "2024-08-01");
    let why = "in its pot K.T1, with K.T2, noticed on 2024-12-01: it may be of either sowing";
    for (question, words) in [
        (
            "show K-1",
            vec![
                "sown 2024-03-01 or 2024-08-01",
                "age from sowing 22.0–27.0 months",
                why,
            ],
        ),
        (
            "card K-1",
            vec![
                "sown 2024-03-01 to 2024-08-01",
                "age 22.0–27.0 months from sowing",
                why,
            ],
        ),
        ("tags K-1", vec!["2024-03 to 2024-08"]),
        (
            "tags K.T1 --trays",
            vec!["V × S 2024-03 to 2024-08 14 left"],
        ),
        (
            "list plants",
            vec!["K-1 unsexed in the collection – 22.0–27.0 months"],
        ),
        (
            "growth K-1",
            vec!["K-1 came out of a pot that was mixed up, and may be of K.S1 or K.S2"],
        ),
        (
            "growth K",
            vec![
                "12 of 12 plants measured",
                "K-3 and 9 more came out of pots that were mixed up, and may be of K.S1 or K.S2",
            ],
        ),
        ("growth K.S1 K.S2", vec![NOT_COUNTED, "not: larger"]),
        (
            "siblings K.S1",
            vec!["0 numbered siblings of K.S1", NOT_COUNTED],
        ),
        ("siblings K", vec!["The 12 siblings of K"]),
        ("siblings K.P1", vec!["The 12 siblings of K.P1"]),
        (
            "show K.S1",
            vec![
                "numbered seedlings 0",
                "more that may be of it 12, sowing not known for certain",
            ],
        ),
    ] {
        holds(&said(&top, question), &words);
    }
}

/// Where the sowings are of one day the age is known, and each is of either sowing all the same.
#[test]
fn a_day_that_two_sowings_share_is_known_and_no_sowing_counts_the_plants() {
    for top in [out_of_pots("2025-03-01", "2024-03-01"), pairs("2024-03-01")] {
        holds(
            &said(&top, "show K-1"),
            &[
                "sown 2024-03-01",
                "27.0 months",
                "it may be of either sowing",
            ],
        );
        holds(
            &said(&top, "growth K.S1 K.S2"),
            &[NOT_COUNTED, "not: larger"],
        );
        for question in ["siblings K.S1", "select K.S1 --weigh span=1 --keep 2"] {
            holds(&said(&top, question), &[NOT_COUNTED]);
        }
    }
}

/// A bare day behind "by" would read as another end of it.
#[test]
fn days_that_are_not_exact_are_set_apart() {
    for (second, words) in [
        ("by 2024-08-01", "sown by 2024-08-01, or on 2024-03-01"),
        (
            "2024-08",
            "sown on 2024-03-01, or between 2024-08-01 and 2024-08-31",
        ),
        ("2024-08-01", "sown 2024-03-01 or 2024-08-01"),
    ] {
        holds(&said(&pairs(second), "show K-1"), &[words]);
    }
}

#[test]
fn what_was_numbered_before_its_pot_was_mixed_up_is_of_its_sowing() {
    let top = out_of_pots("2024-11-01", "2024-08-01");
    holds(
        &said(&top, "show K-1"),
        &["sown 2024-03-01", "not: or 2024-08-01", "not: mixed up"],
    );
    holds(
        &said(&top, "growth K.S1"),
        &["6 of 6 plants measured", "not: not counted here"],
    );
}

#[test]
fn a_chain_of_mix_ups_is_walked_as_far_as_it_was_by_then() {
    let both = ["sown 2024-03-01 or 2024-08-01", "22.0–27.0 months"];
    let one = ["sown 2024-03-01", "not: or 2024-08-01"];
    // Of K-1 it counts only where K-2 may have been K-7 by the day that the two were mixed up.
    for (days, of_the_first) in [
        (["2025-06-01", "2024-12-01"], both),
        (["2024-12-01", "2025-06-01"], one),
        (["2024-12", "2024-12-01"], both),
    ] {
        let top = chain(days);
        holds(&said(&top, "show K-1"), &of_the_first);
        holds(&said(&top, "show K-2"), &both);
    }
    let top = chain(["2025-06-01", "2024-12-01"]);
    let left_out = "3 numbered seedlings may come from another sowing";
    holds(
        &said(&top, "growth K.S1"),
        &["4 of 4 plants measured", left_out],
    );
    holds(
        &said(&top, "siblings K.S1"),
        &[left_out, "numbered 6", "2 of them mixed up since"],
    );
    holds(&said(&top, "card K-1"), &["sown 2024-03-01 to 2024-08-01"]);
}

/// X was dusted with K-1 before K-1 and K-2, of one sowing, were mixed up; both were read after that.
fn used(dusted: &str) -> BenchTop {
    let of_each = |n| {
        let muddled = match n {
            1 | 2 => format!(", muddled: [(on: \"2025-06-01\", with: [\"K-{}\"])]", 3 - n),
            _ => String::new(),
        };
        format!("{}{muddled}", of_sowing(n))
    };
    let page = format!(
        "(code: \"X\", parents: known(seed: \"K-1\", pollen: \"V\"), confidence: witnessed, \
         pollinations: [(zone: \"A\", on: [\"{dusted}\"])], pods: [(code: \"P1\", zone: \"A\")], \
         sowings: [(code: \"S1\", pod: \"P1\", on: \"2025-09-01\")], \
         seedlings: [(number: \"1\"), (number: \"2\"), (number: \"3\")], \
         sittings: [(on: \"2026-05-01\", columns: [\"span cm\"], rows: [[\"1\", \"3\"], [\"2\", \"4\"], [\"3\", \"5\"]])])"
    );
    read(of_each, "", "2024-08-01").file("crosses/X.ron", &page)
}

#[test]
fn a_parent_that_was_mixed_up_after_it_was_used_is_said_to_be() {
    let mixed_up = "K-1 and K-2 were mixed up, noticed on 2025-06-01: ";
    let tags = format!("{mixed_up}either tag may be on the other plant");
    let unsaid = format!("not: {mixed_up}");
    let questions = ["merit K-1 K-2 --trait span", "siblings X"];
    for question in questions {
        holds(&said(&used("2025-03-01"), question), &[mixed_up]);
        // What bore the tag since is the plant that was used and read.
        holds(&said(&used("2025-06-15"), question), &[&unsaid]);
    }
    holds(&said(&used("2025-03-01"), "diversity"), &[&tags]);
}

#[test]
fn a_plant_that_was_mixed_up_between_two_readings_does_not_shrink() {
    let top = |mixed_up: &str| {
        let muddled = |other: &str| {
            format!("sowing: \"S1\", muddled: [(on: {mixed_up}, with: [\"K-{other}\"])]")
        };
        of(&format!(
            "sowings: [(code: \"S1\", on: \"2023-03-01\")], \
             seedlings: [(number: \"1\", {}), (number: \"2\", {})], sittings: [\
             (on: \"2024-03-01\", columns: [\"span cm\"], rows: [[\"1\", \"12\"], [\"2\", \"4\"]]), \
             (on: \"2025-03-01\", columns: [\"span cm\"], rows: [[\"1\", \"5\"], [\"2\", \"14\"]])]",
            muddled("2"),
            muddled("1").replace("with:", "why: \"tags\", with:")
        ))
    };
    for (mixed_up, asked) in [
        ("\"2024-06-01\"", "not: "),
        ("\"2024\"", "not: "),
        ("\"2025-06-01\"", ""),
        ("\"2023-06-01\"", ""),
        ("\"2024-06-01\", settled: \"2025-01\"", ""),
    ] {
        let words = format!("{asked}K-1 is less than half the size it was");
        holds(&said(&top(mixed_up), "check"), &[&words]);
    }
}
