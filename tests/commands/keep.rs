//! `podbook keep`: proposals over the demo, and marks in a copy of it.

use crate::demo::{ask, copied, demo};
use insta::assert_snapshot;

const RULES: &str = r#"(
    weigh: [(of: "span", weight: 1), (of: "liking", weight: 2)],
    need: [(of: "teeth", at_least: 2)],
    keep: 3, quotas: [(cross: "X18-01", keep: 2)], both_sexes: 0.9,
    shelf: (width_cm: 60, depth_cm: 40, shelves: 1, pot_cm: 7),
)"#;
const PAGE: &str = "crosses/X22-02.ron";

#[test]
fn a_proposal_by_weights() {
    assert_snapshot!(demo(
        "keep X22-02 --weigh span=1 --weigh banding=2 --keep 4"
    ));
}

#[test]
fn two_crosses_with_a_level_and_minutes_to_spare() {
    assert_snapshot!(demo(
        "keep X22-02 X18-01 --weigh span=1 --need banding=3 --keep 3 --minutes 20"
    ));
}

#[test]
fn rules_may_lie_in_a_file() {
    let top = copied().file("keep.rules", RULES);
    assert_snapshot!(ask(top.path(), "keep X22-02 X18-01 --rules keep.rules"));
}

#[test]
fn the_answer_comes_as_json() {
    assert_snapshot!(demo("keep X22-02.P2 --weigh span=1 --keep 2 --json"));
}

#[test]
fn the_table_comes_as_csv() {
    assert_snapshot!(demo("keep X22-02.P2 --weigh span=1 --keep 2 --format csv"));
}

#[test]
fn without_a_rule_an_example_is_shown_that_runs() {
    let run = demo("keep X22-02 X18-01");
    assert_snapshot!(run);
    let example = run
        .stderr
        .lines()
        .find_map(|line| line.strip_prefix("for example: podbook "))
        .expect("an example");
    assert_eq!(demo(example).exit, Some(0), "{example}");
}

#[test]
fn the_examples_of_the_help_run() {
    for verb in ["siblings", "spread", "sort", "keep", "growth"] {
        let help = demo(&format!("{verb} --help")).stdout;
        let words: Vec<&str> = help.split_whitespace().collect();
        let words = words.join(" ");
        let (_, examples) = words.split_once("Example: ").expect("an example");
        let mut tried = 0;
        for example in examples.split("podbook ").filter(|text| !text.is_empty()) {
            let (asked, _) = example
                .split_once(" --registry registry-demo")
                .expect("an example names the demo");
            let run = ask(copied().path(), asked);
            assert_eq!(run.exit, Some(0), "{asked}: {run}");
            tried += 1;
        }
        assert!(tried > 0, "{verb} has no example");
    }
}

#[test]
fn applying_follows_the_file_as_it_is_now() {
    let asked = "keep X22-02 --weigh span=1 --keep 3";
    let top = copied();
    let proposed = ask(top.path(), asked);
    assert!(proposed.stdout.contains("X22-02-17"), "{proposed}");
    let best = proposed
        .stdout
        .lines()
        .find(|line| line.contains("X22-02-17"))
        .expect("a row");
    assert!(best.contains("  keep  "), "{best}");
    // Between the proposal and --apply the plant is found dead.
    let page = top.text(PAGE);
    let line = page
        .lines()
        .find(|line| line.contains("number: \"17\""))
        .expect("the seedling");
    let dead = line.replacen(
        "number: \"17\"",
        "number: \"17\", fate: died(on: \"2025-05-30\")",
        1,
    );
    let top = top.change(PAGE, line, &dead);
    let before = top.text(PAGE);
    let applied = ask(top.path(), &format!("{asked} --apply"));
    assert!(applied.stdout.starts_with("Marked"), "{applied}");
    assert!(!applied.stdout.contains("X22-02-17"), "{applied}");
    let after = top.text(PAGE);
    let marks: Vec<&str> = after.split(", kept: (on: \"2025-06-01\"").collect();
    assert_eq!(marks.len(), 3, "{after}");
    let unmarked: String = marks
        .iter()
        .enumerate()
        .map(|(at, part)| match at {
            0 => part,
            _ => part.split_once("\")").expect("a mark ends").1,
        })
        .collect();
    assert_eq!(unmarked, before);
}

#[cfg(unix)]
#[test]
fn a_file_that_may_not_be_written_is_left_as_it_is() {
    use std::os::unix::fs::PermissionsExt;
    let top = copied();
    let file = top.path().join(PAGE);
    let before = top.text(PAGE);
    let set = |mode| {
        let mode = std::fs::Permissions::from_mode(mode);
        std::fs::set_permissions(&file, mode).expect("permissions can be set");
    };
    set(0o444);
    let run = ask(top.path(), "keep X22-02 --weigh span=1 --keep 3 --apply");
    set(0o644);
    assert_snapshot!(run);
    assert_eq!(before, top.text(PAGE));
}

/// Plants and gains of the readings proposed.
fn next(question: &str) -> Vec<(String, f64)> {
    let told: serde_json::Value =
        serde_json::from_str(&demo(question).stdout).expect("the answer is JSON");
    let rows = told["read_next"].as_array().expect("a list").iter();
    rows.map(|row| {
        let plant = row["plant"].as_str().expect("a code").to_owned();
        (plant, row["gain"].as_f64().expect("a gain"))
    })
    .collect()
}

#[test]
fn what_to_read_next_is_judged_within_each_cross_best_first() {
    let rules = "--weigh banding=1 --keep 3 --minutes 1000 --json";
    let together = next(&format!("keep X22-02 X18-01 {rules}"));
    assert!(together.len() > 5, "{together:?}");
    assert!(together.windows(2).all(|pair| pair[0].1 >= pair[1].1));
    let alone = ["X22-02", "X18-01"].map(|cross| next(&format!("keep {cross} {rules}")));
    let mut alone: Vec<_> = alone.concat();
    alone.sort_by(|a, b| b.1.total_cmp(&a.1));
    assert_eq!(together, alone);
}
