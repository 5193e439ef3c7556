//! `podbook ready`.

use crate::bench_top::BenchTop;
use crate::demo::{demo, demo_screen};
use insta::assert_snapshot;

/// One female on her way, a male before her, four envelopes, one of them without a name.
pub fn june() -> BenchTop {
    BenchTop::with([
        ("registry.ron", include_str!("june/registry.ron")),
        ("clones.ron", include_str!("june/clones.ron")),
        ("pollen.ron", include_str!("june/pollen.ron")),
        (
            "crosses/X22-05.ron",
            include_str!("june/crosses/X22-05.ron"),
        ),
        (
            "crosses/X23-02.ron",
            include_str!("june/crosses/X23-02.ron"),
        ),
        (
            "crosses/X23-03.ron",
            include_str!("june/crosses/X23-03.ron"),
        ),
    ])
}

#[test]
fn what_can_be_pollinated_in_june() {
    assert_snapshot!(june().run(&["ready", "--on", "2024-06-10"]));
}

#[test]
fn ages_windows_and_what_is_offered() {
    let run = june().run(&["ready", "--on", "2024-06-10", "--json"]);
    let report: serde_json::Value = serde_json::from_str(&run.stdout).unwrap();
    // No plant has three past spikes of its own, all together have: 34 to 44 days from 2 May and from 26 April.
    assert_eq!(report["females"][0]["opens"], "2024-06-05 to 2024-06-15");
    assert_eq!(report["males"][0]["opens"], "2024-05-30 to 2024-06-09");
    // Ages on 10 June by the calendar: T1 111, J1 313, H1 634; S1 is shedding, and its last flower is to come.
    let options = report["options"].as_array().unwrap();
    let offered: Vec<(&str, [i64; 2])> = options
        .iter()
        .map(|row| {
            let age = |at: usize| row["age_days"][at].as_i64().unwrap();
            (row["pollen"].as_str().unwrap(), [age(0), age(1)])
        })
        .collect();
    let known = |days| [days, days];
    assert_eq!(
        offered,
        [
            ("S1", [0, 0]),
            ("T1", known(111)),
            ("J1", known(313)),
            ("H1", known(634))
        ]
    );
    assert!(options.iter().all(|row| row["inbreeding"] == 0.0));
    let pollen = report["pollen"].as_array().unwrap();
    let nameless = pollen.iter().find(|row| row["lot"] == "NICE").unwrap();
    assert_eq!(nameless["for_a_named_cross"], false);
    // All pollen of the same place and age: 10 of 20 flowers beside T1, none for J1 and H1. Of the envelopes themselves: T1's
    // was never used, H1's set none of 8.
    let of =
        |lot: &str, what: &str| pollen.iter().find(|row| row["lot"] == lot).unwrap()[what].clone();
    let own = |lot: &str| of(lot, "pooled");
    assert_eq!(of("T1-2402", "set_by_it")["flowers"], 0);
    assert_eq!(of("H1-2209", "set_by_it")["flowers"], 8);
    assert_eq!(
        (
            own("T1-2402")["set"].clone(),
            own("T1-2402")["flowers"].clone()
        ),
        (10.into(), 20.into())
    );
    assert_eq!(own("J1-2308")["flowers"], 0);
    assert_eq!(own("H1-2209")["flowers"], 0);
    assert_eq!(report["controls"]["flowers"], 11);
}

#[test]
fn nothing_is_open_in_january() {
    assert_snapshot!(june().run(&["ready", "--on", "2024-01-10"]));
}

#[test]
fn a_day_that_is_no_day() {
    assert_snapshot!(june().run(&["ready", "--on", "spring 2024"]));
}

#[test]
fn without_own_spikes_common_practice_stands_in_and_is_called_so() {
    let top = BenchTop::with([
        ("registry.ron", include_str!("june/registry.ron")),
        (
            "clones.ron",
            "(clones: [(code: \"A1\", received: \"N. ventricosa\", flowerings: [(spike: \"2024-05-20\", sex: female, seen_by: buds)])])",
        ),
    ]);
    assert_snapshot!(top.run(&["ready"]));
}

/// Pollen that has outlived what growers report is not simply in hand, on one screen or in full.
#[test]
fn old_pollen_is_called_old_on_the_first_screen() {
    for run in [demo_screen(80, "ready"), demo("ready")] {
        let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            said.contains("3 envelopes, 2 of them older than pollen usually lasts"),
            "{run}"
        );
        assert!(!said.contains("Pollen in hand"), "{run}");
        assert!(!said.contains("keep half back"), "{run}");
        // Collected 2021-05-12, asked 2025-06-01: 1481 days, over 365.2425 are 4.05 years.
        assert!(said.contains("4.1 years"), "{run}");
    }
    let run = demo("show Spe1-2105");
    let said = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(said.contains("age today 4.1 years"), "{run}");
    assert!(said.contains("older than most pollen"), "{run}");
}

#[test]
fn ages_stand_in_days_months_or_years() {
    use podbook::wording::age_of_days;
    assert_eq!(age_of_days((1, Some(1))), "1 day");
    assert_eq!(age_of_days((45, Some(59))), "45–59 days");
    // Twelve mean months are 365.2425 days.
    assert_eq!(age_of_days((60, Some(60))), "1 month");
    assert_eq!(age_of_days((61, Some(61))), "2 months");
    assert_eq!(age_of_days((360, Some(370))), "11–12 months");
    assert_eq!(age_of_days((731, Some(731))), "2.0 years");
    assert_eq!(age_of_days((700, Some(800))), "1.9–2.2 years");
    assert_eq!(age_of_days((1462, Some(1492))), "4.0–4.1 years");
}

/// Of what was never pollinated nothing is said, and flowers left alone are no pollination.
#[test]
fn no_table_of_what_set_where_nothing_was_dusted() {
    let top = BenchTop::empty();
    top.run(&["new", "mine"]);
    let run = top.run(&["ready", "--registry", "mine"]);
    assert_eq!(run.exit, Some(0), "{run}");
    assert!(!run.stdout.contains("Set so far"), "{run}");
    assert!(!run.stdout.contains('!'), "{run}");
    let run = june().run(&["ready", "--on", "2024-06-10"]);
    let row = run.stdout.lines().find(|line| line.contains("left alone"));
    let row = row.expect("a row of flowers left alone");
    assert!(row.ends_with("1 of 11 flowers (2–38 %)"), "{row}");
}

/// Two spikes of one plant are two rows, each with its code, in what is open, in what could be made and in what is due.
#[test]
fn two_spikes_of_one_plant_are_told_apart() {
    let clones = "(clones: [(code: \"V2\", received: \"N. ventricosa\", confidence: tag, flowerings: [\
         (code: \"24a\", opened: \"2024-05-20\", sex: female), (code: \"24b\", opened: \"2024-05-22\", sex: female)]), \
         (code: \"S1\", received: \"N. spathulata\", confidence: tag, flowerings: [\
         (opened: \"2024-05-20\", sex: male)])])";
    let top = BenchTop::with([
        (
            "registry.ron",
            "(genus: \"Nepenthes\", hemisphere: north, format: 2)",
        ),
        (
            "species.ron",
            "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])",
        ),
        ("clones.ron", clones),
    ]);
    let times = |line: &str, words: &str| {
        let asked: Vec<&str> = line.split(' ').chain(["--today", "2024-05-28"]).collect();
        top.run(&asked).stdout.matches(words).count()
    };
    for spike in ["V2, spike 24a", "V2, spike 24b"] {
        // What could be made with it, when it is open, and by which forecast.
        assert_eq!(times("ready", spike), 3, "{spike}");
        assert_eq!(times("due", spike), 1, "{spike}");
    }
    assert_eq!(times("ready", "S1, spike"), 0);
    assert_eq!(times("due", "pollen: S1;"), 2);
    assert_eq!(times("due --format csv", ",V2,24b,"), 1);
}

/// A spike of which only the year of its first flower is known measures no duration: with it in the range, a spike that
/// opened half a year ago counted as open, and the plan was put on it.
#[test]
fn a_vague_past_spike_keeps_no_later_one_open() {
    let held = |vague: &str| {
        let clones = format!(
            "(clones: [(code: \"Ven1\", received: \"N. ventricosa\", flowerings: [\
             (opened: \"2023-06-01\", over: \"2023-06-22\", sex: female), (opened: \"2026-06-02\", sex: female)]), \
             (code: \"Spa1\", received: \"N. spathulata\", flowerings: [\
             (opened: \"2022-05-01\", over: \"2022-05-20\", sex: male), (opened: \"2026-11-20\", sex: male), {vague}])])"
        );
        let species = "(species: [(epithet: \"ventricosa\"), (epithet: \"spathulata\")])";
        let registry = "(genus: \"Nepenthes\", hemisphere: north, traits: [])";
        let top = BenchTop::with([
            ("registry.ron", registry),
            ("species.ron", species),
            ("clones.ron", &clones),
        ]);
        top.run(&["ready", "--today", "2026-11-30"]).stdout
    };
    // Opened in 2020 and over in July: 0 to 191 days. Of May: 19 to 49 days, of which all may be.
    for vague in [
        "(opened: \"2020\", over: \"2020-07-10\", sex: male)",
        "(opened: \"2020-05\", over: \"2020-06-19\", sex: male)",
    ] {
        let said = held(vague);
        assert!(said.contains("0 females in flower"), "{vague}\n{said}");
    }
    // From some day of April to 30 June, 61 to 90 days: surely longer than 60.
    let longer = held("(opened: \"2020-04\", over: \"2020-06-30\", sex: male)");
    assert!(longer.contains("19–61 days"), "{longer}");
    let within = held("(opened: \"2020-04\", over: \"2020-06-19\", sex: male)");
    assert!(within.contains("19–60 days"), "{within}");
}
