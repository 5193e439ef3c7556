//! Doubts that a plant has already when it is mixed up: they go to all that it is mixed up with, and outlast the mix-up.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, said};

const SPECIES: &str = r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata"), (epithet: "maxima"), (epithet: "truncata")])"#;
const CLONES: &str = r#"(clones: [
    (code: "V", received: "N. ventricosa", confidence: tag), (code: "S", received: "N. spathulata", confidence: tag),
    (code: "M", received: "N. maxima", confidence: tag), (code: "T", received: "N. truncata", confidence: tag),
])"#;

/// A pot, a seedling numbered out of it before it fell and one that came after.
const POT: &str = r#"sowings: [(code: "S1", pod: "P1", on: "2024-01-10", seeds: 60, germinated: [(on: "2024-04-01", count: 40)])],
    community_pots: [(code: "T1", sowing: "S1", alive: [(on: "2024-09-01", count: 20)])],
    seedlings: [(number: "1", community_pot: "T1", numbered: "2025-01-10"), (number: "2", community_pot: "T1", numbered: "2026-03-01")],"#;

/// Crosses X1 (V × S), X2 (M × T) and X3 (V × T) with one pod each, and these parts of X1; X2 and X3 have the pot.
fn of(parts: &str) -> BenchTop {
    let page = |code: &str, parents: &str, parts: &str| {
        format!(
            r#"(code: "{code}", parents: known({parents}), confidence: witnessed, pods: [(code: "P1")], {parts})"#
        )
    };
    BenchTop::with([
        ("registry.ron", r#"(genus: "Nepenthes", hemisphere: north)"#),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
        (
            "crosses/X1.ron",
            &*page("X1", r#"seed: "V", pollen: "S""#, parts),
        ),
        (
            "crosses/X2.ron",
            &*page("X2", r#"seed: "M", pollen: "T""#, POT),
        ),
        (
            "crosses/X3.ron",
            &*page("X3", r#"seed: "V", pollen: "T""#, POT),
        ),
    ])
}

fn play(top: &BenchTop, lines: &[(&str, &[&str])]) {
    for (line, words) in lines {
        holds(&said(top, line), words);
    }
}

const TWO: &str = "from one of two crosses (pod X1.P1 or X2.P1)";
const THREE: &str = "from one of three crosses (pod X1.P1, X2.P1 or X3.P1)";
const SURE: &str = "parents witnessed; founders";

/// What is settled is which tag is on which plant; that one of them came out of a muddled tray is as open as before.
#[test]
fn an_older_doubt_outlasts_a_mix_up() {
    let by_hand = r#"seedlings: [(number: "1", one_of: ["P1", "X2.P1"]), (number: "2")],
        community_pots: [(code: "T1", one_of: ["P1", "X2.P1"])]"#;
    for ended in ["--tags-right", ""] {
        let top = of(by_hand);
        let settle = format!("muddle X1-1 X1-2 --settled {ended}");
        play(
            &top,
            &[
                ("muddle X1-1 X1-2", &["mixed up"]),
                ("name X1-1", &[TWO]),
                ("name X1-2", &[TWO]),
                (settle.trim(), &["each is again what its record says"]),
                ("name X1-1", &[TWO, "not: parents witnessed"]),
                ("name X1-2", &[SURE]),
                ("check", &["No faults"]),
                ("muddle X1.T1 X2.T1", &["mixed up"]),
                ("muddle X1.T1 X2.T1 --settled", &["mix-up settled"]),
                ("name X1.T1", &[TWO]),
                ("name X2.T1", &[SURE]),
            ],
        );
        let page = top.text("crosses/X1.ron");
        assert!(!page.contains("one_of_before"), "{page}");
    }
}

/// Of two mix-ups each brings its own doubt, whichever is settled first.
#[test]
fn each_mix_up_takes_its_own_doubt_away() {
    let both: [(&str, &[&str]); 2] = [
        ("muddle X1-1 X2-1 --on 2026-04-01", &["mixed up"]),
        ("muddle X1-1 X3-1 --on 2026-05-01", &["mixed up"]),
    ];
    let later: [(&str, &[&str]); 4] = [
        ("muddle X1-1 X3-1 --settled", &["still mixed up with X2-1"]),
        ("name X1-1", &[TWO]),
        ("muddle X1-1 X2-1 --settled", &["mix-up settled"]),
        ("name X1-1", &[SURE]),
    ];
    let earlier: [(&str, &[&str]); 4] = [
        ("muddle X1-1 X2-1 --settled", &["still mixed up with X3-1"]),
        ("name X1-1", &[THREE]),
        ("muddle X1-1 X3-1 --settled", &["mix-up settled"]),
        ("name X1-1", &[SURE]),
    ];
    for settled in [later, earlier] {
        let top = of(POT);
        play(&top, &both);
        play(&top, &settled);
        holds(&said(&top, "check"), &["No faults or warnings"]);
    }
}

/// The doubt that a seedling has from its pot goes to what it is mixed up with.
#[test]
fn a_doubt_from_the_pot_goes_to_what_it_is_mixed_up_with() {
    let top = of(POT);
    play(
        &top,
        &[
            ("muddle X1.T1 X2.T1 --on 2026-01-05", &["mixed up"]),
            ("name X1-1", &[SURE]),
            ("name X1-2", &[TWO]),
            ("muddle X1-2 X3-1 --on 2026-05-01", &["mixed up"]),
            ("name X1-2", &[THREE]),
            ("name X3-1", &[THREE]),
            ("muddle X1-2 X3-1 --settled", &["mix-up settled"]),
            ("name X1-2", &[TWO]),
            ("name X3-1", &[SURE]),
            ("muddle X1-1 X1-2 --on 2026-05-02", &["mixed up"]),
            ("name X1-1", &[TWO, "not: parents witnessed"]),
            ("muddle X1-1 X1-2 --settled", &["mix-up settled"]),
            ("name X1-1", &[SURE]),
            ("name X1-2", &[TWO]),
        ],
    );
}

/// A doubt of the other that is recorded later, but was there when the two were mixed up, is the doubt of both.
#[test]
fn a_doubt_found_out_later_reaches_what_was_mixed_up_since() {
    let first = "muddle X1-1 X1-2 --on 2026-05-20";
    for (earlier, later) in [
        (
            "muddle X1.T1 X2.T1 --on 2026-01-05",
            "muddle X1.T1 X2.T1 --on 2026-05-25",
        ),
        (
            "muddle X1-2 X2-1 --on 2026-05-01",
            "muddle X1-2 X2-1 --on 2026-05-25",
        ),
    ] {
        let top = of(POT);
        play(
            &top,
            &[
                (first, &["mixed up"]),
                (earlier, &["mixed up"]),
                (
                    "name X1-1",
                    &[
                        "from one of two crosses (mixed up with X1-2); X1 itself witnessed; X2 itself witnessed",
                        "not: parents witnessed",
                    ],
                ),
                (
                    "check",
                    &[
                        "X1-1 was mixed up with X1-2, which may be of another cross, but names no pods that it may be of",
                    ],
                ),
            ],
        );
        // What came later is on the other tag, and not on this one.
        let top = of(POT);
        play(
            &top,
            &[
                (first, &["mixed up"]),
                (later, &["mixed up"]),
                ("name X1-1", &[SURE]),
                ("check", &["not: mix-up-without-pods"]),
            ],
        );
    }
}

/// Seedlings that may be of several pods are in no row, and the answer counts them.
#[test]
fn pods_say_what_else_may_be_of_them() {
    let top = of(r#"seedlings: [(number: "1", one_of: ["P1", "X2.P1"]), (number: "2")],"#);
    play(
        &top,
        &[
            (
                "list pods",
                &[
                    "1 more numbered seedling of these crosses: the pod is not known for certain, so no row counts it",
                ],
            ),
            (
                "show X1.P1",
                &[
                    "numbered seedlings 1",
                    "more that may be of it 1, pod not known for certain",
                ],
            ),
            (
                "show X2.P1",
                &[
                    "numbered seedlings 2",
                    "more that may be of it 1, pod not known for certain",
                ],
            ),
            ("show X3.P1", &["numbered seedlings 2", "not: may be of it"]),
        ],
    );
}
