//! Slips of a hand in a text editor: a doubt that cannot be read is a doubt all the same, a list that was not read may hold
//! what is asked for, and advice leads to no other fault. Each row makes one slip in a sound registry and asks.

use crate::bench_top::{BenchTop, Run};
use crate::small_records::holds;

const SETTINGS: &str = r#"(genus: "Nepenthes", hemisphere: north, format: 2, traits: [
    (code: "span", name: "leaf span", reads: length(cm))])"#;
const SPECIES: &str = r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata")])"#;
const FOUNDERS: &str = r#"(clones: [
    (code: "V1", received: "N. ventricosa", confidence: tag, ramets: [(code: "a", place: "shelf 1")]),
    (code: "S1", received: "N. spathulata", confidence: tag, flowerings: [(opened: "2021-03", sex: male)]),
])"#;
const POLLEN: &str = r#"(lots: [(code: "S1-p", from: plant("S1"), collected: "2022-03-20")])"#;
const CROSS: &str = r#"(
    code: "X22-01",
    parents: known(seed: "V1", pollen: "S1"),
    confidence: witnessed,
    pollinations: [(zone: "A", on: ["2022-03-26"], pollen: "S1-p", flowers: 12, set: 8)],
    pods: [(code: "P1", zone: "A", seeds: 240)],
    sowings: [(code: "S1", pod: "P1", on: "2022-09-10", seeds: 60, germinated: [(on: "2022-12-03", count: 38)])],
    seedlings: [
        (number: "1", sowing: "S1", place: "shelf 1"),
        (number: "2", sowing: "S1"), (number: "3", sowing: "S1"),
    ],
    sittings: [(on: "2024-05-11", columns: ["span cm"], rows: [["1", "12.5"], ["2", "4.1"]])],
)
"#;
const CHILD: &str = r#"(code: "X24-01", parents: known(seed: "X22-01-1", pollen: "S1"), confidence: witnessed,
    seedlings: [(number: "1"), (number: "2")])"#;
const CROSS_PAGE: &str = "crosses/X22-01.ron";

fn sound() -> BenchTop {
    BenchTop::with([
        ("registry.ron", SETTINGS),
        ("species.ron", SPECIES),
        ("clones.ron", FOUNDERS),
        ("pollen.ron", POLLEN),
        (CROSS_PAGE, CROSS),
        ("crosses/X24-01.ron", CHILD),
    ])
}

fn asked(top: &BenchTop, question: &str) -> Run {
    let words = question.split(' ').map(|word| word.replace('_', " "));
    let words: Vec<String> = words
        .chain(["--today".into(), "2026-06-01".into()])
        .collect();
    top.run(&words.iter().map(String::as_str).collect::<Vec<_>>())
}

/// All that a question prints, with single blanks.
fn said(top: &BenchTop, question: &str) -> String {
    let run = asked(top, question);
    let all = format!("{}{}", run.stdout, run.stderr);
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Of each row the page, what it says, what a hand made of that, a question, and words its answer has or has not.
type Slip = (
    &'static str,
    &'static str,
    &'static str,
    &'static str,
    &'static [&'static str],
);

fn each(slips: &[Slip]) {
    for (page, was, now, question, words) in slips {
        let top = sound().change(page, was, now);
        holds(&said(&top, question), words);
    }
}

/// How many faults `check` lists.
fn faults_told(check: &Run) -> usize {
    let lines = check.stdout.lines();
    lines.filter(|line| line.starts_with("fault ")).count()
}

const UNREAD: &str =
    "parents in doubt: a field about them could not be read (crosses/X22-01.ron, line ";

#[test]
fn a_doubt_that_cannot_be_read_is_a_doubt() {
    let in_doubt = &["(parents in doubt)", UNREAD, "not: parents witnessed"];
    const ZONE: &str = "set: 8)";
    each(&[
        (
            CROSS_PAGE,
            ZONE,
            "set: 8, control_flowers: 6, control_set: \"2\")",
            "name X22-01",
            in_doubt,
        ),
        (
            CROSS_PAGE,
            ZONE,
            "set: 8, control_flowers: 6, control_sets: 2)",
            "name X22-01-1",
            in_doubt,
        ),
        (
            CROSS_PAGE,
            ZONE,
            "set: 8, control_set: \"2\")",
            "card X22-01-1",
            &[UNREAD, "not: parents witnessed"],
        ),
        (
            CROSS_PAGE,
            ZONE,
            "set: 8, control_set: \"2\")",
            "name X24-01-1",
            &[
                "(parents further back in doubt)",
                "the parents of X22-01-1 are in doubt: a field about them",
            ],
        ),
        (
            CROSS_PAGE,
            ZONE,
            "set: 8, note: 5)",
            "name X22-01",
            &["parents witnessed", "not: in doubt"],
        ),
        (
            CROSS_PAGE,
            "zone: \"A\", on",
            "zone: 3, on",
            "name X22-01",
            in_doubt,
        ),
        (
            CROSS_PAGE,
            "pollinations: [",
            "polinations: [",
            "name X22-01",
            in_doubt,
        ),
        (
            CROSS_PAGE,
            "    confidence",
            "    told_by: \"a friend\",\n    confidence",
            "name X22-01",
            in_doubt,
        ),
        (
            "pollen.ron",
            "plant(\"S1\")",
            "plants(\"S1\")",
            "name X22-01",
            &["(pollen.ron, line 1)"],
        ),
        (
            "pollen.ron",
            "collected",
            "told_by: \"a friend\", collected",
            "name X22-01",
            &["(pollen.ron, line 1)"],
        ),
        (
            CROSS_PAGE,
            "number: \"1\"",
            "number: \"1\", muddled: (on: \"2025\", with: [\"X24-01-1\"])",
            "name X22-01-1",
            in_doubt,
        ),
        (
            CROSS_PAGE,
            "number: \"1\"",
            "number: \"1\", one_of: \"P1\"",
            "name X22-01-1",
            in_doubt,
        ),
        (
            CROSS_PAGE,
            "number: \"1\"",
            "number: \"1\", one_of: \"P1\"",
            "name X22-01-2",
            &["not: in doubt"],
        ),
        // Of two neither is taken.
        (
            CROSS_PAGE,
            "    confidence",
            "    parents: unknown,\n    confidence",
            "name X22-01",
            &["X22-01: ?", "not: spathulata"],
        ),
        (
            CROSS_PAGE,
            "    pods",
            "    confidence: claim,\n    pods",
            "name X22-01",
            &[UNREAD, "not: witnessed"],
        ),
        (
            CROSS_PAGE,
            "    pods",
            "    confidence: claim,\n    pods",
            "check",
            &["until then neither is read"],
        ),
        (
            CROSS_PAGE,
            "    pods",
            "    confidence: witnessed,\n    pods",
            "name X22-01",
            &["parents witnessed"],
        ),
        (
            "clones.ron",
            "confidence: tag, r",
            "confidence: tag, confidence: claim, r",
            "name V1",
            &["how it is known is not recorded"],
        ),
        (
            "clones.ron",
            "sex: male",
            "sex: male, seen_by: bud",
            "show S1",
            &["not: male"],
        ),
        (
            "species.ron",
            "(epithet: \"ventricosa\")",
            "(epithet: \"ventricosa\", doubtful: yes)",
            "name V1",
            &["marked doubtful"],
        ),
    ]);
}

/// A lineage does not leave without a doubt of its record.
#[test]
fn a_lineage_whose_doubt_cannot_be_read_is_not_handed_over() {
    let top = sound().change(CROSS_PAGE, "set: 8)", "set: 8, control_set: \"2\")");
    let run = asked(&top, "handover X24-01-1");
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(
        run.stderr.contains("nothing was written: X22-01-1: "),
        "{run}"
    );
    assert!(!top.path().join("X24-01-1-lineage").exists(), "{run}");
    assert_eq!(asked(&sound(), "handover X24-01-1").exit, Some(0));
}

/// Whatever swallowed a list, it may hold what stands in the place that was named, the code and the number.
#[test]
fn a_list_that_was_not_read_may_hold_what_is_asked_for() {
    let swallowed = [
        (CROSS_PAGE, "    seedlings: [", "    seedling: ["),
        (CROSS_PAGE, "    seedlings: [", "    Seedlings: ["),
        (CROSS_PAGE, "    seedlings: [", "    plants: ["),
        (CROSS_PAGE, "    seedlings: [", "    /* seedlings: ["),
        (CROSS_PAGE, "count: 38)])],", "count: 38)))],"),
    ];
    for (page, was, now) in swallowed {
        let top = sound().change(page, was, now);
        for question in [
            "gone --place shelf_1 --died",
            "gone X22-01-1 --died",
            "show X22-01-1",
            "number X22-01.S1 1-2",
        ] {
            let run = asked(&top, question);
            assert_eq!(run.exit, Some(3), "{now}: {question}\n{run}");
            assert!(run.stderr.contains(page), "{now}: {question}\n{run}");
            assert_eq!(top.text(page), sound().change(page, was, now).text(page));
        }
        holds(&said(&top, "check --notes"), &["not: there is no parent"]);
    }
    let places = [
        ("clones.ron", "(clones: [", "(clone: ["),
        ("clones.ron", "ramets: [", "ramet: ["),
        ("clones.ron", "(code: \"a\"", "(code: 5"),
        (CROSS_PAGE, "place:", "plase:"),
        (CROSS_PAGE, "place: \"shelf 1\"", "place: 7"),
    ];
    for (page, was, now) in places {
        let top = sound().change(page, was, now);
        let run = asked(&top, "gone --place shelf_1 --died");
        assert_eq!(run.exit, Some(3), "{now}\n{run}");
        assert!(run.stderr.contains(page), "{now}\n{run}");
    }
    // A slip in a note or a reading hides no plant.
    for (was, now) in [
        ("seeds: 240", "seeds: 240, note: 5"),
        ("[\"1\", \"12.5\"]", "[\"1\", 12.5]"),
    ] {
        let run = asked(
            &sound().change(CROSS_PAGE, was, now),
            "gone --place shelf_1 --died",
        );
        assert_eq!(run.exit, Some(0), "{now}\n{run}");
    }
}

#[test]
fn a_range_refuses_a_number_that_could_not_be_read() {
    let top = sound().change(CROSS_PAGE, "number: \"2\"", "number: 2");
    let run = asked(&top, "gone X22-01-1..3 --died");
    assert_eq!(run.exit, Some(3), "{run}");
    assert!(run.stderr.contains("`X22-01-2` was not found"), "{run}");
}

#[test]
fn blanks_that_look_alike_are_one_place() {
    for blank in ["\u{a0}", "  ", "\t", "\u{2009}", "\u{3000}"] {
        let top = sound().change(CROSS_PAGE, "shelf 1", &format!("shelf{blank}1"));
        let run = asked(&top, "gone --place shelf_1 --died");
        assert_eq!(run.exit, Some(0), "{run}");
        assert!(run.stdout.contains("X22-01-1"), "{blank:?}\n{run}");
    }
}

/// What git leaves of a conflict that a hand half joined.
#[test]
fn lines_of_marks_that_are_left_are_one_fault() {
    const ROW: &str = "        (number: \"2\"";
    let copies = "        (number: \"2\", place: \"shelf 2\"),\n=======\n        (number: \"2\", fate: died(on: \"2025\")),\n";
    let base = format!(
        "<<<<<<< HEAD\n{}>>>>>>> other\n",
        copies.replace("=======", "||||||| base\n=======")
    );
    for (marks, faults, told) in [
        ("<<<<<<< HEAD\n".to_owned(), 1, "delete this line"),
        ("=======\n".to_owned(), 1, "delete this line"),
        (">>>>>>> other\n".to_owned(), 1, "delete this line"),
        (format!("<<<<<<< HEAD\n{copies}"), 2, "delete this line"),
        (format!("{copies}>>>>>>> other\n"), 2, "delete this line"),
        (base, 1, "delete the four lines of marks"),
    ] {
        let top = sound().change(CROSS_PAGE, ROW, &format!("{marks}{ROW}"));
        let check = asked(&top, "check");
        assert_eq!(
            check.stdout.matches("fault conflict-marks").count(),
            faults,
            "{check}"
        );
        assert_eq!(faults_told(&check), faults, "{check}");
        assert!(check.stdout.contains(told), "{check}");
        if faults == 2 {
            let show = asked(&top, "show X22-01-2");
            assert_eq!(show.exit, Some(3), "{marks}\n{show}");
            assert!(!show.stdout.contains("died"), "{show}");
        }
        assert_eq!(asked(&top, "keep X22-01-1").exit, Some(3));
    }
    let remark = sound().change(CROSS_PAGE, ROW, &format!("/* a line\n=======\n*/ {ROW}"));
    assert_eq!(asked(&remark, "check").exit, Some(0));
}

#[test]
fn advice_leads_to_no_wrong_figure_and_to_no_other_fault() {
    each(&[
        (
            CROSS_PAGE,
            "\"12.5\"",
            "\"l2.5\"",
            "check",
            &["`l2.5`", "not: write 2.5"],
        ),
        (
            CROSS_PAGE,
            "\"12.5\"",
            "\"about 12.5\"",
            "check",
            &["write 12.5"],
        ),
        (
            CROSS_PAGE,
            "on: \"2024-05-11\"",
            "on: null",
            "check",
            &["leave the field out", "not: write \"null\""],
        ),
        (
            "registry.ron",
            "hemisphere: north",
            "hemisphere: South",
            "check",
            &["did you mean `south`?"],
        ),
    ]);
    let top = sound();
    std::fs::remove_file(top.path().join(CROSS_PAGE)).expect("the page is there");
    let check = said(&top, "check");
    holds(&check, &["there is no parent `X22-01-1`", "not: X24-01-1`"]);
    let top = sound().file("crosses/clones.ron", FOUNDERS);
    let check = asked(&top, "check");
    assert_eq!(faults_told(&check), 1, "{check}");
    assert!(
        check
            .stdout
            .contains("this is clones.ron in the folder of crosses"),
        "{check}"
    );
}
