//! `podbook grade` over the demo: text, JSON and CSV, and what cannot be sorted.

use crate::bench_top::BenchTop;
use crate::demo::demo;
use insta::assert_snapshot;

#[test]
fn a_sowing_in_thirds() {
    assert_snapshot!(demo("grade X22-02.S1 --at 20"));
}

#[test]
fn the_answer_comes_as_json() {
    assert_snapshot!(demo("grade X22-02.S2 --json"));
}

#[test]
fn the_table_comes_as_csv() {
    assert_snapshot!(demo("grade X22-02.S2 --format csv"));
}

#[test]
fn a_cross_sown_twice_is_refused() {
    assert_snapshot!(demo("grade X22-02"));
}

#[test]
fn an_age_nobody_read_is_refused() {
    assert_snapshot!(demo("grade X22-02.S1 --at 26"));
}

/// A tray of one sowing read once: numbers with their leaf span and pests; `fates` of plants that left since.
fn tray(rows: &[(&str, &str, &str)], fates: &[(&str, &str)]) -> BenchTop {
    let fate = |number: &str| {
        let of = fates.iter().find(|of| of.0 == number);
        of.map_or(String::new(), |of| format!(", fate: {}", of.1))
    };
    let numbers = rows
        .iter()
        .map(|(number, ..)| format!("(number: \"{number}\", sowing: \"S1\"{}),", fate(number)));
    let cells = rows
        .iter()
        .map(|(number, span, pests)| format!("[\"{number}\", \"{span}\", \"{pests}\"],"));
    let page = format!(
        "(code: \"K\", parents: unknown, sowings: [(code: \"S1\", on: \"2023-01-10\")], seedlings: [{}], \
         sittings: [(on: \"2024-05-10\", columns: [\"span cm\", \"pest\"], rows: [{}])])",
        numbers.collect::<String>(),
        cells.collect::<String>()
    );
    let settings = "(genus: \"Nepenthes\", hemisphere: north, traits: [\
        (code: \"span\", name: \"leaf span\", reads: length(cm), tied_within: 2)])";
    BenchTop::with([("registry.ron", settings), ("crosses/K.ron", &page)])
}

/// The answer with single blanks.
fn graded(top: &BenchTop) -> String {
    let run = top.run(&["grade", "K", "--today", "2024-06-01"]);
    assert_eq!(run.exit, Some(0), "{run}");
    run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
}

const TWELVE: [(&str, &str, &str); 12] = [
    ("1", "9.0", ""),
    ("2", "8.6", ""),
    ("3", "8.3", ""),
    ("4", "8.0", ""),
    ("5", "7.7", ""),
    ("6", "7.6", ""),
    ("7", "7.4", ""),
    ("8", "7.2", ""),
    ("9", "5.5", ""),
    ("10", "3.0", ""),
    ("11", "1.5", "mites"),
    ("12", "1.4", "mites"),
];

#[test]
fn readings_with_pests_count_in_no_figure_of_the_tray() {
    let with = graded(&tray(&TWELVE, &[]));
    let without = graded(&tray(&TWELVE[..10], &[]));
    let figures = |answer: &str| {
        let from = answer.find("median").expect("figures");
        answer[from..].split("largest").next().map(str::to_owned)
    };
    assert_eq!(figures(&with), figures(&without), "{with}");
    for words in [
        "10 siblings of K.S1 graded",
        "n 10, median",
        "#8 K-8 7.2 slow",
        " K-11 1.5 not classed – – pests seen",
        "left out: 2 readings flagged for pests",
        "K-11: pests seen that day; not to be culled for its size",
    ] {
        assert!(with.contains(words), "{words}\n{with}");
    }
}

#[test]
fn every_tie_is_told_or_counted() {
    let answer = graded(&tray(&TWELVE[..10], &[]));
    for words in [
        "#1 K-1 9.0 fast – – tied with K-4, K-5, K-6 and 1 more",
        "#8 K-8 7.2 slow – – tied with K-5, K-6, K-7 and 1 more",
    ] {
        assert!(answer.contains(words), "{words}\n{answer}");
    }
}

#[test]
fn no_plant_is_tied_with_one_that_is_gone() {
    let six = [
        ("1", "20", ""),
        ("2", "14", ""),
        ("3", "13", ""),
        ("4", "10", ""),
        ("5", "5", ""),
        ("6", "1", ""),
    ];
    let here = graded(&tray(&six, &[]));
    assert!(
        here.contains("#2 K-2 14.0 fast – – tied with K-3"),
        "{here}"
    );
    let gone = graded(&tray(&six, &[("3", "sold(on: \"2024-05-20\")")]));
    assert!(gone.contains("#2 K-2 14.0 fast – – #3"), "{gone}");
}

/// Growth is from the last reading of another age, and of days that are known to the day.
#[test]
fn growth_is_from_a_reading_of_another_age() {
    let growth = |first: &str| {
        let sitting = |(on, span): (&str, &str)| {
            format!(
                "(on: \"{on}\", columns: [\"span cm\"], rows: [[\"1\", \"{span}\"], [\"2\", \"{span}\"], [\"3\", \"{span}\"]])"
            )
        };
        let sittings = [(first, "5"), ("2024-05-09", "8.0"), ("2024-05-10", "8.2")].map(sitting);
        let numbers = [1, 2, 3].map(|number| format!("(number: \"{number}\", sowing: \"S1\")"));
        let page = format!(
            "(code: \"K\", parents: unknown, sowings: [(code: \"S1\", on: \"2023-01-10\")], seedlings: [{}], sittings: [{}])",
            numbers.join(", "),
            sittings.join(", ")
        );
        let run = tray(&[], &[])
            .file("crosses/K.ron", &page)
            .run(&["grade", "K", "--json"]);
        let answer: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
        answer["plants"][0]["growth_per_month"].clone()
    };
    let months = 252.0 / 30.4375;
    let known = growth("2023-09-01").as_f64().expect("a rate");
    assert!(
        (known - (8.2_f64 / 5.0).ln() / months).abs() < 1e-9,
        "{known}"
    );
    assert!(growth("2023").is_null());
}
