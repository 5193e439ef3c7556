//! `podbook due`.

use crate::bench_top::BenchTop;
use crate::demo::{copied, demo, demo_screen};
use insta::assert_snapshot;

/// A screen of the demo on a day in June: nothing with a date, records left open, room.
#[test]
fn a_quiet_day() {
    assert_snapshot!(demo_screen(80, "due"));
}

/// The first line does not say that nothing is due above jobs missed for years.
#[test]
fn what_is_long_overdue_is_said_first() {
    let run = demo("due");
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        said.starts_with(
            "2025-06-01: 7 jobs are long overdue (2015–2022), 4 have no date; nothing falls due in the next 30 days"
        ),
        "{run}"
    );
    assert!(said.contains("your 2 shelves suffice for a year"), "{run}");
}

/// A job that is long overdue and one without a date are two things, for a program too.
#[test]
fn long_overdue_and_undated_are_told_apart() {
    let report: serde_json::Value = serde_json::from_str(&demo("due --json").stdout).expect("JSON");
    let rows = report["rows"].as_array().expect("rows");
    let count = |urgency: &str| rows.iter().filter(|row| row["urgency"] == urgency).count();
    assert_eq!((count("long_overdue"), count("no_date")), (7, 4));
    let table = demo("due --format csv").stdout;
    let count = |urgency: &str| table.lines().filter(|row| row.starts_with(urgency)).count();
    assert_eq!((count("long overdue,"), count("no date,,,")), (7, 4));
}

/// The demo two days after a zone was dusted, its spike and a male's still open.
#[test]
fn a_busy_spring() {
    assert_snapshot!(copied().run(&["due", "--today", "2022-04-06"]));
}

#[test]
fn all_of_a_busy_summer() {
    let top = copied();
    assert_snapshot!(top.run(&["due", "--today", "2022-08-10", "--within", "12w"]));
}

#[test]
fn as_a_spreadsheet() {
    let top = copied();
    assert_snapshot!(top.run(&["due", "--today", "2022-08-10", "--format", "csv"]));
}

#[test]
fn a_small_registry_without_shelves() {
    assert_snapshot!(BenchTop::sound().run(&["due"]));
}

#[test]
fn how_far_ahead_is_days_weeks_or_months() {
    let within = |text: &str| {
        let run = demo(&format!("due --json --within {text}"));
        let report: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
        report["within_days"].as_u64().expect("days")
    };
    assert_eq!(within("30"), 30);
    assert_eq!(within("30d"), 30);
    assert_eq!(within("12w"), 84);
    assert_eq!(within("3m"), 93);
    assert_eq!(within("4000000000d"), 3650);
    for bad in ["", "d", "-3", "3y", "1.5w", "soon", "+3"] {
        let run = BenchTop::sound().run(&["due", "--within", bad]);
        assert_eq!(run.exit, Some(2), "{bad}: {run}");
        assert!(run.stderr.contains("--within needs"), "{bad}: {run}");
    }
}

#[test]
fn settings_that_cannot_be_are_faults_with_their_place() {
    let top = BenchTop::empty().file(
        "registry.ron",
        "(genus: \"Nepenthes\", hemisphere: north,\n\
         intervals: (pods_ripen: (200, 90), sittings_at_months: [-1]),\n\
         pot_steps: [(from_months: 3, pot_cm: 0)],\n\
         shelves: [(place: \"top\", width_cm: -5, depth_cm: 40)])",
    );
    assert_snapshot!(top.run(&["check"]));
}

/// The goals' word on pollen counts, and goals that cannot be read are refused with their place.
#[test]
fn goals_are_read() {
    let top = BenchTop::sound().file("goals.ron", "(pollen_lasts: (fridge: \"long\"))");
    let run = top.run(&["due"]);
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(run.stderr.contains("goals.ron:1:"), "{run}");
}

/// A harvest known by its year only is no longer than until today, and no shorter than a pod ripens.
#[test]
fn a_vague_harvest_makes_no_range_beyond_today() {
    let zone = |(zone, on): (&str, &str)| {
        format!("(zone: \"{zone}\", plant: \"V1\", on: [\"{on}\"], flowers: 5, set: 2)")
    };
    let zones = [
        ("A", "2024-01-10"),
        ("B", "2024-01-12"),
        ("C", "2024-01-14"),
        ("D", "2024-02-01"),
    ];
    let page = format!(
        "(code: \"X24-01\", parents: known(seed: \"V1\", pollen: \"S1\"), confidence: witnessed, pollinations: [{}], pods: [
            (code: \"P1\", zone: \"A\", harvested: \"2024-06\"), (code: \"P2\", zone: \"B\", harvested: \"2024\"),
            (code: \"P3\", zone: \"C\", harvested: \"2024-05-20\")])",
        zones.map(zone).join(", ")
    );
    let top = BenchTop::sound().file("crosses/X24-01.ron", &page);
    let run = top.run(&["due", "--within", "400d"]);
    assert!(
        run.stdout.contains("21–150 days in 5 records of yours"),
        "{run}"
    );
}

/// Seed counted on its pod is as well known as seed counted in a lot: what was not sown is to be sown.
#[test]
fn seed_counted_on_its_pod_is_not_forgotten_after_the_first_sowing() {
    for (seed, left) in [
        (
            "seed_lots: [(code: \"L1\", pod: \"P1\")], sowings: [(code: \"S1\", lot: \"L1\", on: \"2024-05-25\", seeds: 40)]",
            Some("L1"),
        ),
        (
            "sowings: [(code: \"S1\", pod: \"P1\", on: \"2024-05-25\", seeds: 40)]",
            Some("P1"),
        ),
        (
            "seed_lots: [(code: \"L1\", pod: \"P1\", seeds: 200)], sowings: [(code: \"S1\", lot: \"L1\", on: \"2024-05-25\", seeds: 40)]",
            Some("L1"),
        ),
        (
            "sowings: [(code: \"S1\", pod: \"P1\", on: \"2024-05-25\", seeds: 200)]",
            None,
        ),
        (
            "sowings: [(code: \"S1\", pod: \"P1\", on: \"2024-05-25\")]",
            None,
        ),
    ] {
        let page = format!(
            "(code: \"X24-01\", parents: known(seed: \"V1\", pollen: \"S1\"), pods: [(code: \"P1\", harvested: \"2024-05-20\", seeds: 200)], {seed})"
        );
        let top = BenchTop::sound().file("crosses/X24-01.ron", &page);
        let run = top.run(&["due", "--within", "30d", "--format", "csv"]);
        let asks = |code: &str| {
            let mut rows = run.stdout.lines();
            rows.any(|row| {
                row.contains("sow the seed") && row.contains(code) && row.contains("160 seeds left")
            })
        };
        match left {
            Some(of) => assert!(asks(&format!("X24-01.{of}")), "{seed}\n{run}"),
            None => assert!(!run.stdout.contains("sow the seed,X24-01"), "{seed}\n{run}"),
        }
    }
}

/// What a grower is asked to record of pods ripe long ago can be recorded by a command, and by the form on a phone.
#[test]
fn pods_ripe_long_ago_are_recorded_as_is_said() {
    let page = r#"(code: "K", parents: known(seed: "V1", pollen: "S1"), confidence: tag,
        pollinations: [(zone: "A", on: ["2021-05-21"]), (zone: "B", on: ["2021-05-28"])])"#;
    let top = BenchTop::sound().file("crosses/K.ron", page);
    let said = |top: &BenchTop| {
        let run = top.run(&["due"]);
        run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    let words = "K.A and K.B: pods were ripe more than a year ago and no harvest is on record; record the harvest with its day, and with 0 seeds if the pods were lost";
    let before = said(&top);
    assert!(before.contains(words), "{before}");
    assert!(!before.contains("`zone`"), "{before}");
    for zone in ["K.A", "K.B"] {
        let run = top.run(&["harvest", zone, "--seeds", "0", "--on", "2021-10-01"]);
        assert_eq!(run.exit, Some(0), "{run}");
    }
    let after = said(&top);
    assert!(!after.contains("K.A"), "{after}");
}

/// A pod without a zone is of one of two: with the harvest of the other nothing is left to ask.
#[test]
fn a_pod_without_a_zone_leaves_one_of_two_to_record() {
    let top = copied();
    let said = |top: &BenchTop| crate::demo::ask(top.path(), "due").stdout;
    assert!(said(&top).contains("X21-05.A and X21-05.B"));
    let lost = "harvest X21-05.B --seeds 0 --on 2021-10-01";
    let run = crate::demo::ask(top.path(), lost);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(!said(&top).contains("X21-05.A"), "{run}");
}
