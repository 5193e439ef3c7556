//! The history of a plant as it goes into the picture: events in order, partial dates as ranges, what has no date last and
//! called so, nothing private, nothing after today.

use podbook::context::Context;
use podbook::record::{Day, Hemisphere, When};
use podbook::registry::build;
use podbook::report::chart::{CalendarChart, CalendarRow};
use podbook::report::history::history_chart;
use podbook::text::Sources;

fn sources() -> Sources {
    let mut sources = Sources::new();
    sources.add(
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, traits: [
            (code: "span", name: "leaf span", reads: length(cm)),
            (code: "banding", name: "rim banding", reads: scale(["plain", "part", "half", "whole"])),
        ], treatments: [(on: "2024-02-03", place: "shelf 9", product: "soap water", against: "aphids")])"#,
    );
    sources.add(
        "species.ron",
        "(species: [(epithet: \"burbidgeae\"), (epithet: \"veitchii\")])",
    );
    sources.add(
        "clones.ron",
        r#"(clones: [
            (code: "B1", received: "N. burbidgeae", from: "a friend in secret",
             ramets: [(code: "a", made: original, fate: died(on: "unknown", cause: "secret rot")),
                      (code: "b", from: "a", made: cutting, rooted: "2020")],
             flowerings: [(sex: female), (spike: "2021-03", opened: "2021-04-05", over: "by 2021-06", sex: female)],
             note: "secret"),
            (code: "V1", received: "N. veitchii", on: "2018"),
        ])"#,
    );
    sources.add(
        "crosses/X1.ron",
        r#"(code: "X1", parents: known(seed: "B1", pollen: "V1"), confidence: witnessed,
            pollinations: [(zone: "A", on: ["2021-04-06", "2021-04-08"]), (zone: "B", on: ["2022-04-01"])],
            pods: [(code: "P1", zone: "A", harvested: "2021-08"), (code: "P2", zone: "B", harvested: "2022-08")],
            seed_lots: [(code: "L1", pod: "P1")],
            sowings: [(code: "S1", lot: "L1", on: "2021-09-01")],
            seedlings: [
                (number: "1", sowing: "S1", place: "shelf 9",
                 pots: [(on: "2023-01", pot: "5 cm", place: "shelf 9")],
                 kept: (why: "secret hope"),
                 fate: sold(on: "2024-05-02", to: "a secret buyer", price: "secret", said: "secret")),
                (number: "2", one_of: ["P1", "P2"]),
            ],
            sittings: [
                (on: "2023-09-01", columns: ["span cm", "banding", "note"], rows: [["1", "12.5", "3", "secret note"]]),
                (on: "2031-09-01", columns: ["span cm"], rows: [["1", "80"]]),
            ])"#,
    );
    sources
}

fn day(text: &str) -> Day {
    When::read(text, Hemisphere::North).expect("a day").first
}

fn chart(code: &str, today: &str) -> CalendarChart {
    let sources = sources();
    let (registry, findings) = build(&sources);
    let told: Vec<String> = findings.iter().map(|of| format!("{of:?}")).collect();
    assert!(told.is_empty(), "{told:?}");
    let context = Context::of(&registry, day(today));
    let plant = registry.plant(code).expect("on record");
    history_chart(&context, plant)
}

fn rows(chart: &CalendarChart) -> Vec<&CalendarRow> {
    chart.groups.iter().flat_map(|group| &group.rows).collect()
}

#[test]
fn a_seedling_from_pollination_to_sale() {
    let chart = chart("X1-1", "2025-01-01");
    let told: Vec<(&str, Option<(Day, Day)>)> = rows(&chart)
        .iter()
        .map(|row| {
            let window = row.window.map(|(first, last)| (Day(first), Day(last)));
            (row.what.as_str(), window)
        })
        .collect();
    let range = |first: &str, last: &str| Some((day(first), day(last)));
    let expected = [
        ("pollinated", range("2021-04-06", "2021-04-08")),
        ("pod harvested", range("2021-08-01", "2021-08-31")),
        ("sown", range("2021-09-01", "2021-09-01")),
        ("potted, 5 cm", range("2023-01-01", "2023-01-31")),
        ("read at 24.0 months", range("2023-09-01", "2023-09-01")),
        (
            "its place treated: soap water against aphids",
            range("2024-02-03", "2024-02-03"),
        ),
        ("sold", range("2024-05-02", "2024-05-02")),
        ("came up", None),
        ("marked to keep", None),
    ];
    assert_eq!(told, expected);
    let read = rows(&chart)[4];
    assert_eq!(
        read.details,
        ["2023-09-01", "leaf span 12.5 cm, rim banding 3"]
    );
    let headings: Vec<&str> = chart
        .groups
        .iter()
        .map(|group| group.heading.as_str())
        .collect();
    assert_eq!(headings, ["2021", "2023", "2024", "Date not known"]);
    let unknown = chart.groups.last().expect("groups");
    assert!(
        unknown
            .rows
            .iter()
            .all(|row| row.instead == "date not known")
    );
    assert_eq!(chart.days, (day("2021-04-06").0, day("2025-01-01").0));
}

/// What is dated after today has not happened; the picture says how many events that are.
#[test]
fn nothing_after_today_is_shown() {
    let chart = chart("X1-1", "2022-01-01");
    let told: Vec<&str> = rows(&chart).iter().map(|row| row.what.as_str()).collect();
    assert_eq!(
        told,
        [
            "pollinated",
            "pod harvested",
            "sown",
            "came up",
            "marked to keep"
        ]
    );
    let notes = chart.notes.join(" ");
    assert!(
        notes.contains("4 events are dated after 2022-01-01"),
        "{notes}"
    );
}

#[test]
fn a_founder_with_unknown_dates() {
    let chart = chart("B1", "2025-01-01");
    let told: Vec<(&str, &str)> = rows(&chart)
        .iter()
        .map(|row| (row.what.as_str(), row.instead.as_str()))
        .collect();
    let unknown = "date not known";
    assert_eq!(
        told,
        [
            ("cutting b rooted", ""),
            ("spike seen, female", ""),
            ("first flower open, female", ""),
            ("last flower over", ""),
            ("received", unknown),
            ("spike seen, female", unknown),
            ("piece a died", unknown),
            ("cutting b taken", unknown),
        ]
    );
    // The day it was over by is open to the left: the bar begins before all that is shown.
    let over = rows(&chart)[3];
    let (first, last) = over.window.expect("an end is known");
    assert!(first < chart.days.0);
    assert_eq!(Day(last), day("2021-06-30"));
}

#[test]
fn nothing_private_is_told() {
    for code in ["X1-1", "B1", "V1"] {
        let chart = chart(code, "2032-01-01");
        let all = serde_json::to_string(&chart).expect("JSON");
        for word in ["secret", "shelf 9", "friend"] {
            assert!(!all.contains(word), "{code}: {word} in {all}");
        }
    }
}

/// A seedling of one pod or the other was pollinated on one day or the other, and not over the time between.
#[test]
fn a_seedling_of_one_of_two_pods_has_the_days_of_either() {
    let chart = chart("X1-2", "2025-01-01");
    let range = |first: &str, last: &str| Some((day(first).0, day(last).0));
    let told: Vec<(&str, Option<(i32, i32)>)> = rows(&chart)
        .iter()
        .map(|row| (row.what.as_str(), row.window))
        .collect();
    let expected = [
        ("perhaps pollinated", range("2021-04-06", "2021-04-08")),
        ("perhaps pod harvested", range("2021-08-01", "2021-08-31")),
        ("perhaps pollinated", range("2022-04-01", "2022-04-01")),
        ("perhaps pod harvested", range("2022-08-01", "2022-08-31")),
        ("sown", None),
        ("came up", None),
    ];
    assert_eq!(told, expected);
    assert!(chart.notes.iter().any(|note| note.contains("“perhaps”")));
}
