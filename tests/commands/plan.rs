//! `podbook plan`.

use crate::bench_top::BenchTop;
use insta::assert_snapshot;
use serde_json::Value;

/// Four females, a male shedding, his son, two males in envelopes, and goals.
fn season() -> BenchTop {
    BenchTop::with([
        ("registry.ron", include_str!("season/registry.ron")),
        ("goals.ron", include_str!("season/goals.ron")),
        ("clones.ron", include_str!("season/clones.ron")),
        ("pollen.ron", include_str!("season/pollen.ron")),
        (
            "crosses/X19-01.ron",
            include_str!("season/crosses/X19-01.ron"),
        ),
    ])
}

fn report(top: &BenchTop, arguments: &[&str]) -> Value {
    let run = top.run(&[&["plan", "--json"], arguments].concat());
    serde_json::from_str(&run.stdout).unwrap_or_else(|_| panic!("{run}"))
}

fn pods(report: &Value) -> u64 {
    report["plan"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| row["pods"].as_u64().unwrap())
        .sum()
}

#[test]
fn a_season_by_its_goals() {
    assert_snapshot!(season().run(&["plan"]));
}

#[test]
fn a_season_by_flags_alone() {
    let top = BenchTop::with([
        ("registry.ron", include_str!("season/registry.ron")),
        ("clones.ron", include_str!("season/clones.ron")),
        ("pollen.ron", include_str!("season/pollen.ron")),
        (
            "crosses/X19-01.ron",
            include_str!("season/crosses/X19-01.ron"),
        ),
    ]);
    assert_snapshot!(top.run(&[
        "plan",
        "--pots",
        "40",
        "--seedlings",
        "10",
        "--trait",
        "banding"
    ]));
}

#[test]
fn the_plan_keeps_every_limit_and_is_proved() {
    let found = report(&season(), &[]);
    assert_eq!(found["proved"], true);
    assert_eq!(found["bound"], found["worth"]);
    assert!(found["pots"].as_u64().unwrap() <= 60);
    assert_eq!(pods(&found), found["pods"].as_u64().unwrap());
    for row in found["plan"].as_array().unwrap() {
        assert!(row["inbreeding"].as_f64().unwrap() <= 0.2);
        assert!(row["pods"].as_u64().unwrap() <= 2);
        assert_ne!(
            (row["seed"].as_str(), row["pollen"].as_str()),
            (Some("A1"), Some("B2"))
        );
        assert_ne!(row["lot"], "MIX", "a mixture is never planned");
        assert_ne!(
            row["lot"], "B3-2211",
            "older than the goals let freezer pollen be"
        );
    }
    let worth: Vec<f64> = found["runners_up"]
        .as_array()
        .unwrap()
        .iter()
        .map(|r| r["less"].as_f64().unwrap())
        .collect();
    assert!(
        worth.windows(2).all(|pair| pair[0] <= pair[1] + 1e-9),
        "{worth:?}"
    );
}

#[test]
fn more_pots_are_never_worse_and_never_more_pods_than_fit() {
    let top = season();
    let worth = |pots: &str| {
        let found = report(&top, &["--pots", pots]);
        assert!(pods(&found) * 12 <= pots.parse().unwrap());
        found["worth"].as_f64().unwrap()
    };
    let all = ["0", "11", "12", "24", "36", "60", "120", "600"].map(worth);
    assert!(
        all.windows(2).all(|pair| pair[0] <= pair[1] + 1e-9),
        "{all:?}"
    );
    assert_eq!(all[0], 0.0);
    assert_eq!(all[1], 0.0, "no pod fits into eleven pots");
    assert!(all[2] > 0.0);
}

#[test]
fn what_must_be_made_is_made_and_its_price_told() {
    let top = season().change(
        "goals.ron",
        "never:",
        "must: [(seed: \"A3\", pollen: \"B2\")], never:",
    );
    let found = report(&top, &[]);
    let made = found["plan"]
        .as_array()
        .unwrap()
        .iter()
        .any(|row| row["seed"] == "A3" && row["pollen"] == "B2");
    assert!(made);
    let told = found["limits"]
        .as_array()
        .unwrap()
        .iter()
        .any(|row| row["limit"] == "A3 × B2 must be made: need not");
    assert!(told);
    let (with, without) = (
        found["worth"].as_f64().unwrap(),
        report(&season(), &[])["worth"].as_f64().unwrap(),
    );
    let price = found["limits"]
        .as_array()
        .unwrap()
        .iter()
        .find(|row| row["limit"] == "A3 × B2 must be made: need not")
        .unwrap();
    assert!(
        (with + price["gain"].as_f64().unwrap() - without).abs() < 1e-9,
        "the price is what the season is worth without it"
    );
}

#[test]
fn what_cannot_be_made_is_refused() {
    let top = season().change(
        "goals.ron",
        "never:",
        "must: [(seed: \"A2\", pollen: \"B3\")], never:",
    );
    assert_snapshot!(top.run(&["plan"]));
    // Sister and brother are closer than the cap allows.
    let top = season().change(
        "goals.ron",
        "never:",
        "must: [(seed: \"X19-01-3\", pollen: \"X19-01-5\")], never:",
    );
    let run = top.run(&["plan"]);
    assert_eq!(run.exit, Some(1));
    assert!(run.stdout.starts_with("no plan keeps every limit"), "{run}");
}

#[test]
fn what_must_be_made_twice_by_one_male_uses_both_his_envelopes() {
    let top = season()
        .change("goals.ron", "uses_per_pollen: 2", "uses_per_pollen: 1")
        .change(
            "goals.ron",
            "never:",
            "must: [(seed: \"A2\", pollen: \"B2\"), (seed: \"A3\", pollen: \"B2\"), (seed: \"A2\", pollen: \"B2\")], never:",
        );
    let found = report(&top, &[]);
    let mut lots: Vec<&str> = found["plan"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|row| row["pollen"] == "B2")
        .map(|row| row["lot"].as_str().unwrap())
        .collect();
    lots.sort_unstable();
    assert_eq!(lots, ["B2-2401", "B2-2402"]);
}

#[test]
fn what_must_and_never_may_be_made_is_a_contradiction() {
    let top = season().change(
        "goals.ron",
        "never:",
        "must: [(seed: \"A1\", pollen: \"B2\")], never:",
    );
    let run = top.run(&["plan"]);
    assert_eq!(run.exit, Some(2));
    assert!(
        run.stderr
            .contains("A1 × B2 must be made and that it never may"),
        "{run}"
    );
}

#[test]
fn faults_of_the_goals_are_told_with_their_place() {
    assert_snapshot!(
        season()
            .change("goals.ron", "pots: 60", "pot: 60")
            .run(&["plan"])
    );
    assert_snapshot!(
        season()
            .change("goals.ron", "\"B2\"", "\"B9\"")
            .run(&["plan"])
    );
    assert_snapshot!(
        season()
            .change("goals.ron", "most_inbreeding: 0.2", "most_inbreeding: 2")
            .run(&["plan"])
    );
    assert_snapshot!(
        season()
            .change("goals.ron", "\"banding\"", "\"bandng\"")
            .run(&["plan"])
    );
    assert_snapshot!(season().run(&["plan", "--goals", "nowhere.ron"]));
}

#[test]
fn stopped_early_it_says_what_may_be_missed() {
    let run = season().run(&["plan", "--steps", "1", "--others", "0"]);
    assert_eq!(run.exit, Some(0));
    assert!(
        run.stdout.contains("proved") || run.stdout.contains("stopped early"),
        "{run}"
    );
}

#[test]
fn as_though_all_would_flower() {
    let found = report(&season(), &["--any-time"]);
    assert_eq!(found["proved"], true);
    assert!(found["worth"].as_f64() >= report(&season(), &[])["worth"].as_f64());
}

#[test]
fn nothing_in_flower_is_an_answer() {
    let top = BenchTop::with([
        ("registry.ron", include_str!("season/registry.ron")),
        (
            "clones.ron",
            "(clones: [(code: \"A1\", received: \"N. veitchii\")])",
        ),
    ]);
    assert_snapshot!(top.run(&["plan", "--pots", "20"]));
}

#[test]
fn the_frontier_is_a_picture() {
    let top = season();
    let run = top.run(&["plan", "-o", "frontier.svg"]);
    assert_eq!(run.exit, Some(0), "{run}");
    let svg = top.text("frontier.svg");
    assert!(svg.starts_with("<svg") || svg.starts_with("<?xml"), "{svg}");
    assert!(svg.contains("Gain against kinship"));
    top.run(&["plan", "-o", "again.svg"]);
    assert_eq!(
        svg,
        top.text("again.svg"),
        "the same plan gives the same picture"
    );
    assert_eq!(top.run(&["plan", "-o", "frontier.doc"]).exit, Some(2));
}

#[test]
fn goals_beside_the_registry_are_part_of_it() {
    let run = season().run(&["check"]);
    assert!(!run.stdout.contains("stray-file"), "{run}");
}
