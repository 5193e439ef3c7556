//! What is set side by side is alike, and where it is not the answer says so.

use crate::bench_top::BenchTop;

/// A registry of two founders with one cross of them, or two.
fn top(crosses: &[(&str, &str)]) -> BenchTop {
    let founders = BenchTop::with([
        (
            "registry.ron",
            r#"(genus: "Nepenthes", hemisphere: north, format: 2, traits: [(code: "span", name: "leaf span", reads: length(cm))])"#,
        ),
        ("species.ron", "(species: [])"),
        (
            "clones.ron",
            r#"(clones: [(code: "Max1", received: "N. maxima", confidence: tag), (code: "Tru1", received: "N. truncata", confidence: tag)])"#,
        ),
    ]);
    crosses.iter().fold(founders, |top, (code, rest)| {
        let head = r#"parents: known(seed: "Max1", pollen: "Tru1"), confidence: witnessed"#;
        let page = format!("(code: \"{code}\", {head}, {rest})");
        top.file(&format!("crosses/{code}.ron"), &page)
    })
}

fn said(top: &BenchTop, line: &str) -> String {
    let words: Vec<&str> = line.split(' ').collect();
    let run = top.run(&words);
    assert_eq!(run.exit, Some(0), "{run}");
    // Folded lines are one.
    run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Controls under a cover say less of a zone that had none.
#[test]
fn controls_under_a_cover_are_not_those_of_an_open_zone() {
    let zones = |covered: &str| {
        format!(
            r#"pollinations: [(zone: "A", spike: "24", on: ["2023-05-01"], flowers: 5, {covered}),
                (zone: "B", spike: "24", on: ["2023-05-02"], flowers: 5, covered: true, control_flowers: 5, control_set: 0)],
            pods: [(code: "P1", zone: "A", harvested: "2023-09-01"), (code: "P2", zone: "B", harvested: "2023-09-02")],
            sowings: [(code: "S1", pod: "P1", on: "2023-10-01"), (code: "S2", pod: "P2", on: "2023-10-01")],
            seedlings: [(number: "1", sowing: "S1"), (number: "2", sowing: "S2")]"#
        )
    };
    let differs = "they were covered; that its flowers were is not on record";
    for (covered, differ) in [
        ("covered: false", true),
        ("", true),
        ("covered: true", false),
    ] {
        let top = top(&[("X23-01", &zones(covered))]);
        let of_open = said(&top, "show X23-01-1");
        assert!(
            of_open.contains("none of 5 control flowers set"),
            "{of_open}"
        );
        assert_eq!(of_open.contains(differs), differ, "{covered}: {of_open}");
        let of_covered = said(&top, "show X23-01-2");
        assert!(!of_covered.contains(differs), "{of_covered}");
    }
}

/// At 11.5 months two of six plants of one cross were read and all of the other; at 9.9 months all of both.
#[test]
fn an_age_that_was_read_goes_before_one_between_readings() {
    let rows = |plants: &[u32], size: f64| {
        let row = |plant: &u32| format!("[\"{plant}\", \"{}\"]", size + f64::from(*plant));
        plants.iter().map(row).collect::<Vec<_>>().join(", ")
    };
    let page = |plants: u32, sittings: &[(&str, &[u32], f64)]| {
        let seedlings = (1..=plants).map(|n| format!("(number: \"{n}\", sowing: \"S1\")"));
        let seedlings: Vec<String> = seedlings.collect();
        let sittings = sittings.iter().map(|(on, read, size)| {
            format!(
                "(on: \"{on}\", columns: [\"span cm\"], rows: [{}])",
                rows(read, *size)
            )
        });
        let sittings: Vec<String> = sittings.collect();
        format!(
            "sowings: [(code: \"S1\", on: \"2022-01-01\")], seedlings: [{}], sittings: [{}]",
            seedlings.join(", "),
            sittings.join(", ")
        )
    };
    let all: &[u32] = &[1, 2, 3, 4, 5, 6];
    let many = page(
        6,
        &[
            ("2022-10-28", all, 3.0),
            ("2022-12-17", &all[..2], 5.0),
            ("2023-05-01", all, 9.0),
        ],
    );
    let few = page(
        2,
        &[
            ("2022-10-28", &all[..2], 4.0),
            ("2022-12-17", &all[..2], 6.0),
        ],
    );
    let top = top(&[("X22-01", &many), ("X22-02", &few)]);
    let grown = said(&top, "growth X22-01 X22-02");
    assert!(grown.contains("at 9.9 months"), "{grown}");
    assert!(!grown.contains("interpolated)"), "{grown}");
}

#[test]
fn vague_dates_and_few_counts_are_different_reasons() {
    let sowing = |on: &str, counts: &str| {
        format!(r#"sowings: [(code: "S1", on: "{on}", seeds: 40, germinated: [{counts}])]"#)
    };
    let counts = r#"(on: "2022-02-01", count: 5), (on: "2022-03-01", count: 12), (on: "2022-04-01", count: 20)"#;
    let vague = said(
        &top(&[("X22-01", &sowing("2022", counts))]),
        "growth X22-01",
    );
    assert!(!vague.contains("needs 3 counts"), "{vague}");
    assert!(vague.contains("the dates are too vague"), "{vague}");
    let few = r#"(on: "2022-02-01", count: 5)"#;
    let few = said(
        &top(&[("X22-01", &sowing("2022-01-01", few))]),
        "growth X22-01",
    );
    assert!(few.contains("needs 3 counts with new seedlings"), "{few}");
}

#[test]
fn a_sowing_left_out_for_its_vague_date_was_counted() {
    let sowing = |on: &str, count: u32| {
        format!(
            r#"sowings: [(code: "S1", on: "{on}", seeds: 40, germinated: [(on: "2022-04-01", count: {count})]),
                (code: "S2", on: "2022-01-02", seeds: 40, germinated: [(on: "2022-04-01", count: 9)])]"#
        )
    };
    let top = top(&[
        ("X22-01", &sowing("2022-01-01", 5)),
        ("X22-02", &sowing("winter 2021/22", 20)),
    ]);
    let compared = said(&top, "growth X22-01 X22-02");
    assert!(!compared.contains("not counted at that day"), "{compared}");
    let why = "days after sowing not known to half a month: X22-02.S1";
    assert!(compared.contains(why), "{compared}");
}

/// Two sowings that `select` judges apart are no one age for `siblings` either.
#[test]
fn siblings_and_select_have_one_rule_of_age() {
    let rows = |from: u32| {
        let row = |n: u32| format!("[\"{n}\", \"{}\"]", 5 + n);
        (from..from + 4).map(row).collect::<Vec<_>>().join(", ")
    };
    let seedlings = |from: u32, sowing: &str| {
        let of = |n: u32| format!("(number: \"{n}\", sowing: \"{sowing}\")");
        (from..from + 4).map(of).collect::<Vec<_>>().join(", ")
    };
    let page = format!(
        "sowings: [(code: \"S1\", on: \"2022-05-04\"), (code: \"S2\", on: \"2022-05\")], seedlings: [{}, {}], \
         sittings: [(on: \"2024-03-15\", columns: [\"span cm\"], rows: [{}, {}])]",
        seedlings(1, "S1"),
        seedlings(5, "S2"),
        rows(1),
        rows(5)
    );
    let top = top(&[("X22-01", &page)]);
    let siblings = said(&top, "siblings X22-01");
    assert!(siblings.contains("(4 of the 8 read)"), "{siblings}");
}

/// Pods that were ripe more than a year ago are no job: they are named once.
#[test]
fn pods_of_years_ago_are_named_and_not_due() {
    let page =
        |on: &str| format!(r#"pollinations: [(zone: "A", on: ["{on}"], flowers: 5, set: 3)]"#);
    let due = said(&top(&[("X20-01", &page("2020-05-01"))]), "due");
    assert!(!due.contains("harvest pods"), "{due}");
    assert!(
        due.contains("X20-01.A: pods were ripe more than a year ago"),
        "{due}"
    );
    let due = said(&top(&[("X23-01", &page("2023-10-01"))]), "due");
    assert!(due.contains("harvest pods"), "{due}");
    assert!(!due.contains("more than a year ago"), "{due}");
}

/// Two sittings of one day by two methods: a size is that of one of them, beside siblings read by the same.
#[test]
fn a_size_stands_beside_siblings_read_by_its_method() {
    let page = r#"sowings: [(code: "S1", on: "2023-06-01")], seedlings: [(number: "1", sowing: "S1"),
            (number: "2", sowing: "S1"), (number: "3", sowing: "S1"), (number: "4", sowing: "S1")],
        sittings: [(on: "2024-05-10", method: "ruler", columns: ["span cm"], rows: [["1", "2.1"], ["2", "1.8"], ["3", "2.0"]]),
            (on: "2024-05-10", method: "calliper", columns: ["span cm"], rows: [["1", "2.4"], ["4", "1.2"]])]"#;
    let top = top(&[("X23-01", page)]);
    for (line, size) in [
        (
            "card X23-01-1",
            "2.1 cm (0.8 in), read 2024-05-10, ruler; 2 siblings: 1.8 cm to 2 cm",
        ),
        (
            "card X23-01-3",
            "2.0 cm (0.8 in), read 2024-05-10, ruler; 2 siblings: 1.8 cm to 2.1 cm",
        ),
        (
            "card X23-01-4",
            "1.2 cm (0.5 in), read 2024-05-10, calliper; 1 sibling: 2.4 cm",
        ),
        ("show X23-01-1", "leaf span 2.1 cm ruler"),
        ("show X23-01-1", "leaf span 2.4 cm calliper"),
    ] {
        let answer = said(&top, line);
        assert!(answer.contains(size), "{line}: {answer}");
    }
    assert!(!said(&top, "show X23-01-2").contains("ruler"));
    said(&top, "album -o out");
    let page = top.text("out/plants/x23-01-4.html");
    assert!(page.contains("2.4 cm, the one that was read"), "{page}");
}
