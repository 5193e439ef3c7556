//! `podbook siblings` over the demo: text, JSON, CSV and stated ratios; and what is asked wrongly of it and of `variation`,
//! `grade` and `select`: refused with what was found and what to do.

use crate::bench_top::BenchTop;
use crate::demo::{ask, copied, demo};
use crate::small_records;
use insta::assert_snapshot;

#[test]
fn a_cross_of_two_pods() {
    assert_snapshot!(demo("siblings X22-02"));
}

#[test]
fn a_cross_of_one_pod() {
    assert_snapshot!(demo("siblings X18-01"));
}

#[test]
fn one_trait_comes_as_json() {
    assert_snapshot!(demo(
        "siblings X22-02.P2 --trait span --trait rim-colour --json"
    ));
}

#[test]
fn tables_come_as_csv() {
    assert_snapshot!(demo(
        "siblings X22-02 --trait span --trait banding --format csv"
    ));
}

#[test]
fn a_ratio_needs_to_know_what_its_parts_count() {
    assert_snapshot!(demo("siblings X22-02 --trait banding --ratio 3:1"));
}

#[test]
fn a_stated_ratio_is_tested_and_the_others_that_remain_are_told() {
    assert_snapshot!(demo(
        "siblings X22-02 --trait rim-colour --ratio 3:1 --class red,maroon --class green,pink"
    ));
}

/// Whether the ratio fits is the question, so it is the answer.
#[test]
fn a_stated_ratio_is_the_first_line() {
    let said = demo("siblings X22-02 --trait banding --ratio 3:1 --class 1,2 --class 3,4,5").stdout;
    assert!(said.contains("X22-02, rim banding: 3:1 "), "{said}");
    assert!(said.contains("rim banding against 3:1"), "{said}");
}

/// Six plants in the same order in both traits: no limits, not limits without width.
#[test]
fn a_perfect_rank_correlation_has_no_limits() {
    let cells = ["1 cm", "1 cm", "2 cm", "2 cm", "3 cm", "3 cm"].into_iter();
    let rows: String = (1..)
        .zip(cells)
        .map(|(n, cell)| format!("[\"{n}\", \"{cell}\", \"{}\"], ", (n + 1) / 2))
        .collect();
    let seedlings: String = (1..=6)
        .map(|n| format!("(number: \"{n}\", sowing: \"S1\"), "))
        .collect();
    let top = small_records::of(&format!(
        "sowings: [(code: \"S1\", on: \"2022-01-01\")], seedlings: [{seedlings}],
         sittings: [(on: \"2024-01-01\", columns: [\"span\", \"banding\"], rows: [{rows}])]"
    ));
    let words = [
        "leaf span rim banding 6 +1.00 (no limits)",
        "no limits: where all plants stand in the same order in both",
        "not: no clear relation",
    ];
    small_records::holds(&small_records::said(&top, "siblings K"), &words);
    let json = top.run(&["siblings", "K", "--json"]).stdout;
    let answer: serde_json::Value = serde_json::from_str(&json).expect("the answer is JSON");
    assert!(answer["together"][0]["between"].is_null(), "{answer}");
}

#[test]
fn what_is_asked_wrongly_is_refused() {
    let top = BenchTop::sound();
    for (arguments, words) in [
        (&["siblings", "X99-01"][..], "no record has the code"),
        (
            &["siblings", "X22-02", "--trait", "girth"],
            "no declared trait is called `girth`",
        ),
        (
            &["siblings", "X22-02", "--trait", "span", "--ratio", "3"],
            "such as 3:1",
        ),
        (
            &["siblings", "X22-02", "-o", "x.bmp"],
            ".svg, .png or .pdf, or use --format",
        ),
        (&["variation", "X22-02", "X99-01"], "no record has the code"),
        (&["grade", "X22-02", "--at=-2"], "not below zero"),
        (&["select", "X22-02"], "no rule says what counts"),
        (&["select", "X22-02", "--weigh", "span"], "span=1"),
        (
            &["select", "X22-02", "--weigh", "span=1", "--shelf", "110"],
            "110x110",
        ),
        (
            &["select", "X22-02", "--weigh", "span=1", "--minutes", "0"],
            "above zero",
        ),
    ] {
        let run = top.run(arguments);
        assert_eq!(run.exit, Some(2), "{arguments:?}: {run}");
        assert!(run.stderr.contains(words), "{arguments:?}: {run}");
    }
}

#[test]
fn the_picture_counts_kinds_and_names_the_parent_beside_its_kind() {
    let top = copied();
    let run = ask(top.path(), "siblings X22-02 --trait rim-colour -o x.svg");
    assert_eq!(run.exit, Some(0), "{run}");
    let drawn = top.text("x.svg");
    for words in [
        "red 4 40 % (17–69 %); ♀ X18-01-4",
        "maroon 0 0 % (0–28 %)",
        "maroon 2 29 % (8–64 %)",
    ] {
        assert!(drawn.contains(words), "{words}");
    }
}

/// What came up of the pods is the same figure that `growth` gives for them, by another way in; one trait or one pod has
/// none.
#[test]
fn pods_germinated_as_growth_counts_them() {
    let json = |asked: &str| -> serde_json::Value {
        serde_json::from_str(&crate::demo::demo(asked).stdout).expect("it is JSON")
    };
    let siblings = json("siblings X22-02 --json");
    let growth = json("growth X22-02 --pods --json");
    let (here, there) = (
        &siblings["pods_germinated"],
        &growth["germination_compared"],
    );
    assert_eq!((&here["day"], &here["p"]), (&there["day"], &there["p"]));
    for at in 0..2 {
        for figure in ["up", "sown", "between"] {
            assert_eq!(here["groups"][at][figure], there["groups"][at][figure]);
        }
    }
    assert_eq!(here["groups"][0]["id"], "P1");
    for none in [
        "siblings X22-02 --trait span --json",
        "siblings X22-02.P1 --json",
    ] {
        assert!(json(none)["pods_germinated"].is_null(), "{none}");
    }
}

/// The first line is one sentence and says how they differ; the rest stands below it.
#[test]
fn the_first_line_says_how_they_differ() {
    let first = |question: &str| {
        let run = crate::demo::demo(question);
        let paragraph = run.stdout.split("\n\n").next().unwrap_or_default();
        paragraph.split_whitespace().collect::<Vec<_>>().join(" ")
    };
    assert_eq!(
        first("siblings X22-02"),
        "The 18 siblings of X22-02 differ most in leaf span (4.8–23.5 cm) and pitcher height (22–82 mm, 17 read)"
    );
    assert_eq!(
        first("siblings X15-02"),
        "The 12 siblings of X15-02 show leaf span 7.3–22.5 cm and overall liking 1 to 5"
    );
}

/// What the grower decided is counted but is no sample: no interval on plants sold, culled or marked to keep.
#[test]
fn own_decisions_have_no_interval() {
    let run = crate::demo::demo("siblings X22-02.S1 --trait span");
    let row = |stage: &str| {
        let row = run
            .stdout
            .lines()
            .find(|line| line.trim_start().starts_with(stage));
        row.unwrap_or_else(|| panic!("no row of {stage}: {run}"))
            .to_owned()
    };
    assert!(row("germinated").contains("72 % (59–81 %)"), "{run}");
    for stage in [
        "culled",
        "sold",
        "given away",
        "here today",
        "marked to keep",
    ] {
        assert!(!row(stage).contains('('), "{stage}: {run}");
    }
    assert!(row("culled").contains("20 %"), "{run}");
    assert!(!run.stdout.contains("let go"), "{run}");
    assert!(row("lost").contains("0 %"), "{run}");
}
