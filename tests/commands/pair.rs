//! `podbook pair`.

use crate::bench_top::BenchTop;
use insta::assert_snapshot;

/// A banded female, her brother, her father, a half-brother and an outcross.
fn bands() -> BenchTop {
    BenchTop::with([
        ("registry.ron", include_str!("bands/registry.ron")),
        ("species.ron", include_str!("bands/species.ron")),
        ("clones.ron", include_str!("bands/clones.ron")),
        (
            "crosses/X18-07.ron",
            include_str!("bands/crosses/X18-07.ron"),
        ),
        (
            "crosses/X20-03.ron",
            include_str!("bands/crosses/X20-03.ron"),
        ),
        (
            "crosses/X23-09.ron",
            include_str!("bands/crosses/X23-09.ron"),
        ),
    ])
}

/// The same with both founders of the line raised from one packet of seed.
fn one_packet() -> BenchTop {
    ["V1", "V3"].iter().fold(bands(), |top, code| {
        let from = format!("(code: \"{code}\", ");
        top.change(
            "clones.ron",
            &from,
            &format!("{from}batch: \"packet of 2014\", "),
        )
    })
}

const CHOICES: [&str; 4] = ["X18-07-6", "V3", "X20-03-5", "V5"];

fn inbreeding(top: &BenchTop) -> Vec<(f64, Option<f64>)> {
    let of = |pollen: &&str| {
        let run = top.run(&["pair", "X18-07-2", pollen, "--json"]);
        let report: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
        let figures = &report["inbreeding"];
        (
            figures["at_least"].as_f64().unwrap(),
            figures["if_batches_unrelated"].as_f64(),
        )
    };
    CHOICES.iter().map(of).collect()
}

#[test]
fn brother_father_half_brother_outcross() {
    // Textbook values: full siblings and parent 1/4, half siblings 1/8, unrelated 0.
    let plain = [(0.25, None), (0.25, None), (0.125, None), (0.0, None)];
    assert_eq!(inbreeding(&bands()), plain);
    // With the founders full siblings: 3/8, 3/8, 3/16, 0; the figures without the batch stay beside them.
    let both = [
        (0.375, Some(0.25)),
        (0.375, Some(0.25)),
        (0.1875, Some(0.125)),
        (0.0, Some(0.0)),
    ];
    assert_eq!(inbreeding(&one_packet()), both);
}

#[test]
fn a_brother_on_one_page() {
    assert_snapshot!(bands().run(&["pair", "X18-07-2", "X18-07-6"]));
}

#[test]
fn founders_of_one_packet_give_both_figures() {
    assert_snapshot!(one_packet().run(&["pair", "X18-07-2", "V3", "--seedlings", "6"]));
}

#[test]
fn a_half_brother_and_an_outcross() {
    let top = bands();
    assert_snapshot!(top.run(&["pair", "X18-07-2", "X20-03-5", "--seedlings", "6"]));
    assert_snapshot!(top.run(&["pair", "X18-07-2", "V5", "--seedlings", "12"]));
}

#[test]
fn two_ramets_of_one_plant_are_no_pair() {
    let run = bands().run(&["pair", "V3-a", "V3-b"]);
    assert_eq!(run.exit, Some(1));
    assert!(
        run.stdout
            .starts_with("cannot be made: both are V3: ramets of one plant have one sex"),
        "{run}"
    );
}

#[test]
fn a_male_bears_no_pods() {
    let run = bands().run(&["pair", "V3", "X18-07-2"]);
    assert_eq!(run.exit, Some(1));
    assert!(
        run.stdout
            .starts_with("cannot be made: V3 was seen male; X18-07-2 was seen female"),
        "{run}"
    );
}

#[test]
fn an_appendix_one_ancestor_is_told_as_a_fact() {
    let top = bands()
        .change(
            "species.ron",
            "(species: [",
            "(species: [(epithet: \"rajah\", appendix: \"I\"), ",
        )
        .change(
            "clones.ron",
            "(code: \"V5\", received: \"N. veitchii\"",
            "(code: \"V5\", received: \"N. rajah\"",
        );
    assert_snapshot!(top.run(&["pair", "V1", "X20-03-5"]));
}

#[test]
fn pollen_in_hand_and_set_rates_stand_on_the_page() {
    assert_snapshot!(crate::open::june().run(&["pair", "SP1", "T1"]));
}

#[test]
fn wrong_codes_and_shares_are_refused() {
    assert_snapshot!(bands().run(&["pair", "X18-07-2", "V9"]));
    assert_snapshot!(bands().run(&["pair", "X18-07-2", "V3", "--heritability", "1.5"]));
}
