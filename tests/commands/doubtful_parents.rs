//! Parents that are one of several, on the screens that lead to a pollination: each says what inbreeding may be, and that a
//! cross was only perhaps made before.

use crate::bench_top::BenchTop;
use crate::demo::screen_of;

const CLONES: &str = r#"(clones: [
    (code: "V1", received: "N. maxima", confidence: tag),
    (code: "M1", received: "N. ventricosa", confidence: tag, flowerings: [(opened: "2025-05-28", sex: male)]),
    (code: "M2", received: "N. mira", confidence: tag, flowerings: [(opened: "2020-06-05", over: "2020-06-20", sex: male)]),
])"#;
const MOTHER: &str = r#"(code: "X20-01", parents: pollen_one_of(seed: "V1", pollen: ["M1", "M2"]), confidence: witnessed,
    seedlings: [(number: "1", flowerings: [(opened: "2025-05-28", sex: female)])])"#;
const AGAIN: &str = r#"(code: "X23-01", parents: pollen_one_of(seed: "X20-01-1", pollen: ["M1", "M2"]), confidence: witnessed)"#;

fn bench() -> BenchTop {
    BenchTop::with([
        ("registry.ron", "(genus: \"Nepenthes\", hemisphere: north)"),
        ("clones.ron", CLONES),
        ("crosses/X20-01.ron", MOTHER),
        ("crosses/X23-01.ron", AGAIN),
    ])
}

fn words(arguments: &[&str]) -> String {
    let run = bench().run(&[arguments, &["--today", "2025-06-01"]].concat());
    run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn what_is_ready_says_what_inbreeding_may_be() {
    let told = words(&["ready"]);
    assert!(told.contains("0 (1 in 2) or 0.25 (1 in 2)"), "{told}");
    let told = words(&["ready", "--json"]);
    let outcome = r#""inbreeding_may_be": [ { "value": 0.0, "chance": 0.5 }, { "value": 0.25, "chance": 0.5 } ]"#;
    assert!(told.contains(outcome), "{told}");
}

#[test]
fn the_first_screen_of_a_plan_says_that_it_was_perhaps_made_before() {
    let run = screen_of(100, bench().path(), "plan");
    assert!(run.stdout.contains("made before"), "{run}");
    assert!(run.stdout.contains("perhaps X23-01"), "{run}");
}

/// The screen has it in `mean inbreeding of the seedlings`.
#[test]
fn the_picture_of_a_plan_has_the_words_of_its_screen() {
    const MEAN: &str = "expected, at least 0.125";
    let told = words(&["plan"]);
    assert!(told.contains(MEAN), "{told}");
    let top = bench();
    top.run(&["plan", "-o", "plan.svg", "--today", "2025-06-01"]);
    let picture = top.text("plan.svg");
    assert!(picture.contains(&format!("inbreeding {MEAN}")), "{picture}");
    assert!(!picture.contains("…"), "{picture}");
}
