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
            .starts_with("V3 × V3 cannot be made: both are V3: pieces of one plant have one sex"),
        "{run}"
    );
}

#[test]
fn a_male_bears_no_pods() {
    let run = bands().run(&["pair", "V3", "X18-07-2"]);
    assert_eq!(run.exit, Some(1));
    assert!(
        run.stdout.starts_with(
            "V3 × X18-07-2 cannot be made: V3 was seen male; X18-07-2 was seen female"
        ),
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
    assert_snapshot!(crate::ready::june().run(&["pair", "SP1", "T1"]));
}

#[test]
fn wrong_codes_and_shares_are_refused() {
    assert_snapshot!(bands().run(&["pair", "X18-07-2", "V9"]));
    assert_snapshot!(bands().run(&["pair", "X18-07-2", "V3", "--heritability", "1.5"]));
}

/// V5 gone by a fate; with an envelope of his pollen or none.
fn gone(fate: &str, pollen: bool) -> BenchTop {
    let from = "(code: \"V5\", ";
    let top = bands().change("clones.ron", from, &format!("{from}fate: {fate}, "));
    match pollen {
        true => top.file(
            "pollen.ron",
            "(lots: [(code: \"V5-2401\", from: plant(\"V5\"), collected: \"2024-01-20\", stored: freezer)])",
        ),
        false => top,
    }
}

#[test]
fn a_pollen_parent_that_is_gone_needs_pollen_in_hand() {
    for (fate, words) in [
        (
            "died(on: \"2024-02\", cause: \"heat\")",
            "V5 died 2024-02 (heat)",
        ),
        (
            "culled(on: \"2024-02\", reason: \"weak\")",
            "V5 was culled 2024-02 (weak)",
        ),
    ] {
        let run = gone(fate, false).run(&["pair", "X18-07-2", "V5"]);
        assert_eq!(run.exit, Some(1), "{run}");
        let told = format!("X18-07-2 × V5 cannot be made: {words}, and no pollen of it is in hand");
        assert!(run.stdout.starts_with(&told), "{run}");
        let run = gone(fate, true).run(&["pair", "X18-07-2", "V5"]);
        assert_eq!(run.exit, Some(0), "{run}");
        let told = format!("! {words}: only pollen in hand is left of it");
        assert!(run.stdout.contains(&told), "{run}");
    }
    // Sold is not dead: it may be asked for where it went.
    let run = gone("sold(on: \"2024-02\")", false).run(&["pair", "X18-07-2", "V5"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(
        run.stdout
            .contains("! V5 was sold 2024-02: it stands elsewhere"),
        "{run}"
    );
}

#[test]
fn the_other_way_round_is_offered_when_it_can_be_made() {
    let run = bands().run(&["pair", "V3", "X18-07-2"]);
    assert!(
        run.stdout
            .contains("the other way\nround it can: ♀ X18-07-2 × ♂ V3")
            || run
                .stdout
                .replace('\n', " ")
                .contains("the other way round it can: ♀ X18-07-2 × ♂ V3"),
        "{run}"
    );
    let run = bands().run(&["pair", "V3", "V5"]);
    assert!(!run.stdout.contains("the other way"), "{run}");
}

#[test]
fn no_seedlings_are_refused() {
    let run = bands().run(&["pair", "X18-07-2", "V5", "--seedlings", "0"]);
    assert_eq!(run.exit, Some(2), "{run}");
    assert!(
        run.stderr.contains("--seedlings must be at least 1"),
        "{run}"
    );
}

/// X18-01-4 of the demo was read at 10.5 cm and, ten months later, at 20.0 cm: it is a plant of 20 cm.
#[test]
fn a_parent_counts_with_its_latest_size_and_never_with_a_mean_over_ages() {
    let run = crate::demo::demo("pair X18-01-4 Spa1 --json");
    let found: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    let span = &found["traits"][0];
    assert_eq!(span["code"], "span");
    assert_eq!(span["seed"]["mean"], 20.0, "{span}");
    let age = span["seed"]["age_months"][0].as_f64().unwrap();
    assert!((29.0..31.0).contains(&age), "{span}");
    // Two siblings read on the same two days count with the later day, both.
    let run = crate::demo::demo("pair X18-01-4 X18-01-12 --json");
    let found: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    let span = &found["traits"][0];
    assert_eq!(
        span["seed"]["age_months"], span["pollen"]["age_months"],
        "{span}"
    );
}

/// A pod read small and again large, at another spread.
fn read_twice(second: &str) -> BenchTop {
    let page = format!(
        "(code: \"X20-01\", parents: known(seed: \"V1\", pollen: \"T1\"), confidence: witnessed, \
        sowings: [(code: \"S1\", on: \"2020-09-01\")], seedlings: [{}], sittings: [\
        (on: \"2021-09-01\", columns: [\"span cm\"], rows: [[\"1\", \"2.0\"], [\"2\", \"2.1\"], [\"3\", \"2.2\"], \
        [\"4\", \"2.3\"], [\"5\", \"2.4\"], [\"6\", \"2.5\"]]), \
        (on: \"2023-09-01\", columns: [\"span cm\"], rows: [{second}])])",
        (1..=6)
            .map(|n| format!("(number: \"{n}\", sowing: \"S1\"),"))
            .collect::<String>()
    );
    let clones = "(clones: [(code: \"V1\", received: \"N. ventricosa\", confidence: tag), \
        (code: \"T1\", received: \"N. truncata\", confidence: tag)])";
    BenchTop::with([
        ("registry.ron", include_str!("sound/registry.ron")),
        ("species.ron", include_str!("sound/species.ron")),
        ("clones.ron", clones),
        ("crosses/X20-01.ron", &page),
    ])
}

fn span(top: &BenchTop, seed: &str, pollen: &str) -> serde_json::Value {
    let run = top.run(&["pair", seed, pollen, "--seedlings", "20", "--json"]);
    let report: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    report["traits"][0].clone()
}

/// Spread grows with size: what is expected of seedlings as large as their parents comes from pods read at that age, not
/// from all ages thrown together, and it says from how many readings.
#[test]
fn spread_is_that_of_one_age_with_its_n() {
    let all = "[\"1\", \"20\"], [\"2\", \"22\"], [\"3\", \"24\"], [\"4\", \"26\"], [\"5\", \"28\"], [\"6\", \"30\"]";
    let of = span(&read_twice(all), "X20-01-1", "X20-01-2");
    assert_eq!(of["midparent"], 21.0, "{of}");
    assert_eq!(of["deviation_from"]["plants"], 6);
    assert_eq!(of["deviation_from"]["pods"], 1);
    // Sizes two apart: variance 14 in a pod of two species, V/2 of it inherited. In one of two F1 plants V/2 + S is, S from
    // 1 to 8 V; what is not inherited, 1.5 V at a heritability of 0.4, is the same. Best of 20: i(20) h² SD, with the h²
    // of the pod and i(20) = 1.8675 (order statistics, docs/planning.md).
    for (at, inherited) in [(0, 1.5), (1, 8.5)] {
        let deviation = (14.0 * (inherited + 1.5) / (0.5 + 1.5_f64)).sqrt();
        let found = of["deviation"][at].as_f64().unwrap();
        assert!((found - deviation).abs() < 1e-9, "{of}");
        let best = 1.867_475 * inherited / (inherited + 1.5) * deviation;
        let found = of["best_above"][at].as_f64().unwrap();
        assert!((found - best).abs() < 1e-3, "{of}");
    }
    // Four plants at the later age are too few to tell a spread by; those of the earlier age do not stand in for them.
    let few = "[\"1\", \"20\"], [\"2\", \"22\"], [\"3\", \"24\"], [\"4\", \"26\"]";
    let of = span(&read_twice(few), "X20-01-1", "X20-01-2");
    assert_eq!(of["midparent"], 21.0);
    assert!(
        of["deviation"].is_null() && of["best_above"].is_null(),
        "{of}"
    );
    let run = read_twice(few).run(&["pair", "X20-01-1", "X20-01-2"]);
    assert!(run.stdout.contains("too few"), "{run}");
}

/// The cross of a pair, once made, is expected to vary as the pair was.
#[test]
fn pair_and_variation_expect_one_spread() {
    let page = "(code: \"X22-01\", parents: known(seed: \"X20-01-1\", pollen: \"X20-01-2\"), confidence: witnessed, \
        sowings: [(code: \"S1\", on: \"2022-09-01\")], seedlings: [(number: \"1\", sowing: \"S1\"), \
        (number: \"2\", sowing: \"S1\")], sittings: [(on: \"2023-09-01\", columns: [\"span cm\"], \
        rows: [[\"1\", \"2.0\"], [\"2\", \"3.0\"]])])";
    let all = "[\"1\", \"20\"], [\"2\", \"22\"], [\"3\", \"24\"], [\"4\", \"26\"], [\"5\", \"28\"], [\"6\", \"30\"]";
    let top = read_twice(all).file("crosses/X22-01.ron", page);
    for h2 in ["0.4", "0.7", "1"] {
        let answer = |line: &str| -> serde_json::Value {
            let words: Vec<&str> = line.split(' ').collect();
            let run = top.run(&[&words[..], &["--heritability", h2, "--json"]].concat());
            serde_json::from_str(&run.stdout).unwrap_or_else(|_| panic!("{run}"))
        };
        let pair = answer("pair X20-01-1 X20-01-2");
        let variation = answer("variation X20-01 X22-01 --trait span");
        let expected = &variation["against_first"][0]["expected_between"];
        for at in 0..2 {
            let (one, other) = (&pair["spread_ratio"][at], &expected[at]);
            let apart = one.as_f64().unwrap() - other.as_f64().unwrap();
            assert!(apart.abs() < 1e-12, "{one} {other} at {h2}");
        }
    }
}

/// A pod of one of two fathers and a pod of unknown father are read at the same age, but the spread does not take
/// them: it is scaled by what the parents' ancestry predicts. How many they are and why is said.
#[test]
fn pods_without_certain_parents_are_set_aside_and_counted() {
    let all = "[\"1\", \"20\"], [\"2\", \"22\"], [\"3\", \"24\"], [\"4\", \"26\"], [\"5\", \"28\"], [\"6\", \"30\"]";
    let page = |code: &str, parents: &str| {
        let seedlings: String = (1..=6)
            .map(|n| format!("(number: \"{n}\", sowing: \"S1\"),"))
            .collect();
        format!(
            "(code: \"{code}\", parents: {parents}, sowings: [(code: \"S1\", on: \"2020-09-01\")], \
             seedlings: [{seedlings}], sittings: [(on: \"2023-09-01\", columns: [\"span cm\"], rows: [{all}])])"
        )
    };
    let several = page(
        "X20-02",
        "pollen_one_of(seed: \"V1\", pollen: [\"T1\", \"V1\"])",
    );
    let unknown = page("X20-03", "open(seed: \"V1\")");
    let top = read_twice(all)
        .file("crosses/X20-02.ron", &several)
        .file("crosses/X20-03.ron", &unknown);
    let of = span(&top, "X20-01-1", "X20-01-2");
    assert_eq!(of["deviation_from"]["pods"], 1, "{of}");
    assert_eq!(of["set_aside"]["one_of_several"], 1, "{of}");
    assert_eq!(of["set_aside"]["parent_unknown"], 1, "{of}");
    assert_eq!(of["set_aside"]["readings"], 12, "{of}");
    let run = top.run(&["pair", "X20-01-1", "X20-01-2"]);
    let words: Vec<&str> = run.stdout.split_whitespace().collect();
    assert!(
        words.join(" ").contains(
            "2 pods set aside (12 readings): parents one of several in 1 and a parent not known in 1"
        ),
        "{run}"
    );
    let none = span(&read_twice(all), "X20-01-1", "X20-01-2");
    assert_eq!(none["set_aside"]["readings"], 0, "{none}");
    // Four plants are too few to tell a spread by: the only pod left is the one of two fathers.
    let few = "[\"1\", \"20\"], [\"2\", \"22\"], [\"3\", \"24\"], [\"4\", \"26\"]";
    let top = read_twice(few).file("crosses/X20-02.ron", &several);
    let run = top.run(&["pair", "X20-01-1", "X20-01-2"]);
    assert!(run.stdout.contains("no pod with"), "{run}");
}

/// Plants read at different ages have no mean.
#[test]
fn parents_of_different_ages_have_no_midparent() {
    let page = "(code: \"X22-01\", parents: known(seed: \"V1\", pollen: \"T1\"), confidence: witnessed, \
        sowings: [(code: \"S1\", on: \"2022-09-01\")], seedlings: [(number: \"1\", sowing: \"S1\")], \
        sittings: [(on: \"2024-05-01\", columns: [\"span cm\"], rows: [[\"1\", \"9\"]])])";
    let one = "[\"1\", \"20\"]";
    let top = read_twice(one).file("crosses/X22-01.ron", page);
    let of = span(&top, "X20-01-1", "X22-01-1");
    assert_eq!(of["seed"]["mean"], 20.0, "{of}");
    assert_eq!(of["pollen"]["mean"], 9.0);
    assert!(of["midparent"].is_null(), "{of}");
    let run = top.run(&["pair", "X20-01-1", "X22-01-1"]);
    assert!(run.stdout.contains("not at one age"), "{run}");
}

/// Which of the two is the better parent stands beside their merits, the error of the seedlings' mean beside that.
#[test]
fn which_parent_is_the_better_one_is_a_chance() {
    let of = |seed: &str, pollen: &str| {
        let run = crate::demo::demo(&format!("pair {seed} {pollen} --json"));
        let found: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
        found["traits"][0]["merit"].clone()
    };
    let (one, other) = (of("X18-01-4", "X18-01-13"), of("X18-01-13", "X18-01-4"));
    let chance = |of: &serde_json::Value| of["seed_is_better"].as_f64().unwrap();
    assert!((chance(&one) + chance(&other) - 1.0).abs() < 1e-9);
    let run = crate::demo::demo("merit X18-01-4 X18-01-13 --trait span --json");
    let merit: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    let wanted = merit["better"][0]["chance"].as_f64().unwrap();
    assert!((chance(&one) - wanted).abs() < 1e-9, "{one} {merit}");
    let error = one["mean_error"].as_f64().unwrap();
    assert!(error > 0.1 && error < 1.5, "{one}");
    assert_eq!(one["mean_error"], other["mean_error"]);
}

/// The father of X18-01 of the demo is X13-01-2, two to one, or X13-01-5: bred back to X13-01-2 its seedlings are inbred by
/// a quarter or by an eighth (parent and offspring, aunt and nephew), and by no mean of the two.
#[test]
fn inbreeding_is_what_it_may_be_before_its_mean() {
    let run = crate::demo::demo("pair X18-01-4 X13-01-2 --json");
    let found: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    let of = &found["inbreeding"];
    assert_eq!(of["at_least"], 0.125, "{of}");
    assert_eq!(of["may_be"][1]["value"], 0.25);
    let expected = of["expected"].as_f64().unwrap();
    assert!(
        (expected - (0.125 + 2.0 * 0.25) / 3.0).abs() < 1e-12,
        "{of}"
    );
    let run = crate::demo::demo("pair X18-01-4 X13-01-2");
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.contains("at least 0.125 (1 in 3) or 0.25 (2 in 3); expected 0.2083"),
        "{run}"
    );
}

/// X20-01-5 of the demo is of one of three pairs: its seedlings have the shares with one of them, each printed.
#[test]
fn shares_of_seedlings_with_each_possible_pair_further_back() {
    let run = crate::demo::demo("pair X20-01-5 Spa1 --json");
    let found: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    let each = found["parentage_with_each"].as_array().unwrap();
    assert_eq!(each.len(), 3, "{found}");
    assert!(each.iter().all(|way| way["chance"].is_null()));
    assert_eq!(each[0]["parents"], "X20-01-5 of X20-01 (Jac1 × Ham1)");
    // Half of hamata 1/2 and jacquelineae 1/2, half of spathulata.
    let shares: Vec<(&str, &str)> = each[0]["parentage"]
        .as_array()
        .unwrap()
        .iter()
        .map(|of| (of["of"].as_str().unwrap(), of["share"].as_str().unwrap()))
        .collect();
    assert_eq!(
        shares,
        [
            ("spathulata", "1/2"),
            ("hamata", "1/4"),
            ("jacquelineae", "1/4")
        ]
    );
    let run = crate::demo::demo("pair X20-01-5 Spa1");
    assert!(
        run.stdout
            .contains("X20-01-5 of X20-01 (Jac1 × Ham1): spathulata 1/2"),
        "{run}"
    );
    let certain = crate::demo::demo("pair X22-02-1 Spa1 --json");
    let found: serde_json::Value = serde_json::from_str(&certain.stdout).unwrap();
    assert_eq!(
        found["parentage_with_each"].as_array().map(Vec::len),
        Some(0)
    );
}

/// The page begins with what allows or prevents the pollination today; an unsexed parent is never left to `--full`.
#[test]
fn the_first_line_says_whether_it_can_be_made_now() {
    use crate::demo::{demo, demo_screen};
    let run = demo_screen(80, "pair X22-02-1 Spe1");
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.starts_with(
            "♀ X22-02-1 × ♂ Spe1 is not ready: X22-02-1 is unsexed; no open spike of X22-02-1 is on record; the pollen of Spe1 in hand is older than pollen usually lasts"
        ),
        "{run}"
    );
    // What any pair of so many seedlings gives is no part of one screen.
    assert!(!said.contains("standard deviations above"), "{run}");
    // Nothing is known of Spe1's merit, so it is neither better nor worse.
    let full = demo("pair X22-02-1 Spe1");
    assert!(full.stdout.contains("Of seedlings of any pair"), "{full}");
    assert!(!full.stdout.contains("96 %"), "{full}");
    let run = demo("pair Tru1 X13-01-2");
    assert!(!run.stdout.contains("both sexes"), "no seedlings: {run}");
}

/// A spike that is open and pollen that is young: nothing is lacking.
#[test]
fn a_pair_that_can_be_made_now() {
    use crate::demo::{ask, copied};
    let top = copied();
    top.run(&[
        "flower",
        "Ven1",
        "--sex",
        "female",
        "--opened",
        "2025-05-29",
        "--today",
        "2025-06-01",
    ]);
    top.run(&[
        "collect",
        "Spa1",
        "--on",
        "2025-05-30",
        "--today",
        "2025-06-01",
    ]);
    let run = ask(top.path(), "pair Ven1 Spa1");
    assert!(
        run.stdout.starts_with("♀ Ven1 × ♂ Spa1 can be made now: "),
        "{run}"
    );
}
