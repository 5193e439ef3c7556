//! Pods that ripen count against a plan, and what bears them does not leave without a word.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, said};

const SETTINGS: &str = "(genus: \"Nepenthes\", hemisphere: north, traits: [(code: \"span\", name: \"leaf span\", reads: length(cm))])";
const SPECIES: &str = "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])";
const CLONES: &str = "(clones: [
    (code: \"V\", received: \"N. ventricosa\", confidence: tag, flowerings: [(opened: \"2026-05-25\", sex: female)]),
    (code: \"S\", received: \"N. spathulata\", confidence: tag, flowerings: [(opened: \"2026-05-26\", sex: male)]),
])";

/// Two founders in flower on 2026-06-01, goals, and flowers of V that were dusted with pollen of S.
fn season(goals: &str, zones: &str) -> BenchTop {
    let page = format!(
        "(code: \"M\", parents: known(seed: \"V\", pollen: \"S\"), confidence: witnessed, pollinations: [{zones}])"
    );
    BenchTop::with([
        ("registry.ron", SETTINGS),
        ("species.ron", SPECIES),
        ("clones.ron", CLONES),
        ("goals.ron", goals),
        ("crosses/M.ron", page.as_str()),
    ])
}

fn plan(goals: &str, zones: &str) -> String {
    said(&season(goals, zones), "plan")
}

const ONE: &str = "(zone: \"a\", on: [\"2026-05-30\"], flowers: 3)";
const THREE: &str = "(zone: \"a\", on: [\"2026-05-30\"], flowers: 3), (zone: \"b\", on: [\"2026-05-30\"], flowers: 3), \
     (zone: \"c\", on: [\"2026-05-31\"], flowers: 3)";

/// A plan that was carried out was planned a second time, on the same spike and in the same pots.
#[test]
fn pods_made_before_keep_their_places_and_pots() {
    let goals = "(pots: 60, seedlings_per_pod: 20)";
    holds(&plan(goals, ""), &["3 pods in 60 of 60 pots"]);
    // One of three places and 20 of 60 pots are taken.
    holds(
        &plan(goals, ONE),
        &[
            "2 pods in 40 of the 40 pots left",
            "M.a is pollinated already and may be ripening: the plan leaves room for it and 20 pots for its seedlings",
        ],
    );
    holds(
        &plan(goals, THREE),
        &["Nothing to pollinate: every spike that is open bears the pods it may already"],
    );
    // Without a limit on pots the spike alone is full; with more places there are no pots.
    holds(&plan("()", THREE), &["every spike that is open bears"]);
    let roomy = "(pots: 60, seedlings_per_pod: 20, pods_per_spike: 9)";
    holds(
        &plan(roomy, THREE),
        &[
            "a pod takes 20 pots and there are 60, of which what is pollinated already takes 60",
            "podbook plan --pots 80",
        ],
    );
}

/// Set nothing, come off, dusted a year ago or on a spike of last year, flowers left alone: none of these is in the way.
#[test]
fn what_ripens_no_more_takes_no_place() {
    let goals = "(pots: 60, seedlings_per_pod: 20)";
    for zones in [
        "(zone: \"a\", on: [\"2026-05-30\"], flowers: 3, set: 0)",
        "(zone: \"a\", on: [\"2025-05-30\"], flowers: 3)",
        "(zone: \"a\", control_flowers: 3)",
        "(zone: \"a\", on: [\"2026-05-30\"], flowers: 3)], pods: [(code: \"P1\", zone: \"a\", harvested: \"2026-05-31\")",
    ] {
        holds(&plan(goals, zones), &["3 pods in 60 of 60 pots"]);
    }
    // Flowers left alone beside a dusting whose flowers were not counted do not make it none.
    let dusted = "(zone: \"a\", on: [\"2026-05-30\"], control_flowers: 3)";
    holds(&plan(goals, dusted), &["in 40 of the 40 pots left"]);
    // Dusted in January it ripens still, but on no spike that is open now.
    holds(
        &plan(goals, "(zone: \"a\", on: [\"2026-01-10\"], flowers: 3)"),
        &["2 pods in 40 of the 40 pots left"],
    );
    holds(
        &plan(
            "(seedlings_per_pod: 20)",
            "(zone: \"a\", on: [\"2026-01-10\"], flowers: 3)",
        ),
        &["3 pods in 60 pots"],
    );
}

/// A line is kept by the pod that was made: V with pollen of W is not asked for once more, which nothing could give.
#[test]
fn a_line_that_was_kept_is_not_asked_for_again() {
    let goals = "(pots: 40, seedlings_per_pod: 20, keep_lines: [\"ventricosa\"], never: [(seed: \"V\", pollen: \"W\")])";
    let clones = CLONES.replace(
        "(code: \"S\"",
        "(code: \"W\", received: \"N. ventricosa\", confidence: tag, flowerings: [(opened: \"2026-05-26\", sex: male)]),\n    (code: \"S\"",
    );
    for (zones, says) in [
        ("", "not: 1 pod in"),
        (ONE, "1 pod in 20 of the 20 pots left"),
    ] {
        let page = format!(
            "(code: \"M\", parents: known(seed: \"V\", pollen: \"W\"), confidence: witnessed, pollinations: [{zones}])"
        );
        let top = season(goals, "").file("clones.ron", &clones);
        holds(&said(&top.file("crosses/M.ron", &page), "plan"), &[says]);
    }
}

/// A pair that must be made is made once.
#[test]
fn a_pair_that_was_made_is_not_planned_again() {
    let must = "(pots: 20, seedlings_per_pod: 20, must: [(seed: \"V\", pollen: \"S\")])";
    holds(&plan(must, ""), &["1 pod in 20 of 20 pots"]);
    holds(
        &plan(must, ONE),
        &[
            "Nothing to pollinate",
            "what is pollinated already takes 20",
        ],
    );
}

/// The seed parent of this season's pods was "sell, past the quota", and went without a word of its pods.
#[test]
fn what_bears_pods_does_not_leave_without_a_word() {
    let seedlings = "seedlings: [(number: \"1\", flowerings: [(opened: \"2026-05-20\", sex: female)]), (number: \"2\"), (number: \"3\")], \
         sittings: [(on: \"2026-05-01\", columns: [\"span\"], rows: [[\"1\", \"5 cm\"], [\"2\", \"9 cm\"], [\"3\", \"12 cm\"]])]";
    let siblings =
        format!("(code: \"K\", parents: known(seed: \"V\", pollen: \"S\"), {seedlings})");
    let made = "(code: \"M\", parents: known(seed: \"K-1\", pollen: \"S\"), pollinations: [(zone: \"a\", on: [\"2026-05-25\"], flowers: 8)])";
    let top = || {
        BenchTop::with([
            ("registry.ron", SETTINGS),
            ("species.ron", SPECIES),
            ("clones.ron", CLONES),
            ("crosses/K.ron", siblings.as_str()),
            ("crosses/M.ron", made),
        ])
    };
    let bears = "K-1 may still bear pods of M.a";
    let select = "select K --weigh span=1 --keep";
    holds(
        &said(&top(), &format!("{select} 1")),
        &[bears, "harvest before it goes"],
    );
    holds(
        &said(&top(), &format!("{select} 3")),
        &["not: may still bear"],
    );
    holds(
        &said(&top(), "gone K-1 --culled"),
        &["K-1 may still bear pods of M.a: they go with it"],
    );
    holds(&said(&top(), "gone K-2 --culled"), &["not: may still bear"]);
    holds(&said(&top(), "gone K-1 --died"), &["not: they go with it"]);
}
