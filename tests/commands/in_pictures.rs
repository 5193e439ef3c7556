//! What makes a figure less sure stands in its picture too, since a picture goes about by itself.

use crate::bench_top::BenchTop;
use crate::demo::copied;
use crate::every_form::letters;
use crate::small_records::{holds, of, said};

/// The letters of the picture that a question draws on 2026-06-01.
fn picture(top: &BenchTop, question: &str) -> String {
    let asked = format!("{question} -o x.svg --today 2026-06-01");
    let run = top.run(&asked.split(' ').collect::<Vec<_>>());
    assert_eq!(run.exit, Some(0), "{asked}\n{run}");
    letters(&top.text("x.svg"))
}

/// Seedlings of one sowing and their sittings.
fn tray(sown: &str, plants: usize, sittings: &[(&str, &[&str])]) -> BenchTop {
    let numbers = (1..=plants).map(|n| format!("(number: \"{n}\", sowing: \"S1\"),"));
    let numbers: String = numbers.collect();
    let sitting = |(on, cells): &(&str, &[&str])| {
        let rows = (1..).zip(*cells).filter(|(_, cell)| !cell.is_empty());
        let rows: String = rows
            .map(|(n, cell)| format!("[\"{n}\", \"{cell}\"],"))
            .collect();
        format!("(on: \"{on}\", columns: [\"span cm\"], rows: [{rows}]),")
    };
    let sittings: String = sittings.iter().map(sitting).collect();
    of(&format!(
        "sowings: [(code: \"S1\"{sown})], seedlings: [{numbers}], sittings: [{sittings}]"
    ))
}

const SOWN: &str = ", on: \"2024-01-01\"";

#[test]
fn groups_are_said_to_be_compared_only_with_those_they_were() {
    let five: &[&str] = &["5", "6", "7", "8", "9", ""];
    let six: &[&str] = &["5", "6", "7", "8", "9", "4"];
    let first = |cells| {
        said(
            &tray(SOWN, 6, &[("2025-01-01", cells)]),
            "growth K-1 K-2 K-3 K-4 K-5 K-6",
        )
    };
    let each = "K-1 compared with each of K-2, K-3, K-4, K-5 and K-6: ";
    holds(
        &first(six),
        &[
            &format!("{each}none of 5 pairs shows"),
            "each with the first",
            "not: two by two",
        ],
    );
    let one_unread =
        format!("{each}no clear difference in 4 pairs; 1 of 5 pairs cannot be compared");
    holds(&first(five), &[&one_unread]);
    let few = said(
        &tray(SOWN, 6, &[("2025-01-01", five)]),
        "growth K-1 K-2 K-6",
    );
    holds(
        &few,
        &[
            "K-1, K-2 and K-6 compared two by two: no clear difference in 1 pair; 2 of 3 pairs cannot be compared",
        ],
    );
}

#[test]
fn groups_differ_as_surely_as_the_lines_below_say() {
    let sowing = |n: usize| {
        format!("(code: \"S{n}\", pod: \"P{n}\", on: \"2025-01-01\", medium: \"a\", place: \"x\"),")
    };
    let plant = |n: usize| {
        let place = if n > 8 { "y" } else { "x" };
        format!(
            "(number: \"{n}\", sowing: \"S{}\", place: \"{place}\", pots: [(on: \"2025-06-01\", pot: \"5 cm\")]),",
            (n - 1) / 4 + 1
        )
    };
    let size = |n: usize| format!("[\"{n}\", \"{}.{}\"],", [5, 9, 14][(n - 1) / 4], n % 4 + 1);
    let many = |of: &dyn Fn(usize) -> String, n: usize| (1..=n).map(of).collect::<String>();
    let top = of(&format!(
        "pods: [(code: \"P1\"), (code: \"P2\"), (code: \"P3\")], sowings: [{}], seedlings: [{}], sittings: \
         [(on: \"2026-01-01\", place: \"x\", light: \"LED\", method: \"ruler\", by: \"me\", columns: [\"span cm\"], rows: [{}])]",
        many(&sowing, 3),
        many(&plant, 12),
        many(&size, 12)
    ));
    let words = "K.P1, K.P2 and K.P3 compared two by two: 1 of 3 pairs clearly differs, 2 probably";
    holds(&said(&top, "growth K.P1 K.P2 K.P3"), &[words]);
    holds(
        &picture(&top, "growth K.P1 K.P2 K.P3"),
        &["1 of 3 pairs clearly differs, 2 probably"],
    );
}

#[test]
fn siblings_that_are_likely_slips_are_named() {
    let cells: &[&str] = &["5", "6", "5.5", "6.5", "5", "6", "5.5", "6.5", "5.2", "240"];
    let top = tray(SOWN, 10, &[("2025-01-01", cells)]);
    holds(
        &picture(&top, "siblings K"),
        &["the median of its 9 siblings", "(0.0–", "not: (-"],
    );
    holds(&said(&top, "siblings K"), &["(0.0–", "not: (-"]);
}

#[test]
fn vague_ages_are_bars_and_missing_ones_are_said() {
    let cells: &[&str] = &["5", "6", "7"];
    let sittings: &[(&str, &[&str])] = &[("2025-03-01", cells), ("2026-03-01", cells)];
    let bar = "A bar through a mark: the ages that its dates allow";
    let vague = tray(", on: \"2024\"", 3, sittings);
    for question in ["growth K-1", "growth K", "growth K-1 K-2"] {
        holds(&picture(&vague, question), &[bar]);
    }
    let exact = tray(SOWN, 3, sittings);
    holds(&picture(&exact, "growth K-1"), &["not: A bar"]);
    let none = tray("", 3, sittings);
    holds(
        &picture(&none, "growth K"),
        &["K: not drawn, since the ages of its readings are not known"],
    );
    let survival = picture(&vague, "growth K --survival");
    holds(
        &survival,
        &["K: no plant has an age known to a month", "not: 0 of 0"],
    );
}

/// Twenty siblings, and the tallest of them looked at twice more within half a month.
#[test]
fn no_curve_runs_through_other_plants_each_time() {
    let all: Vec<String> = (0..20)
        .map(|n| format!("{}", 2.0 + 0.1 * f64::from(n)))
        .collect();
    let all: Vec<&str> = all.iter().map(String::as_str).collect();
    let mut one = vec![""; 20];
    one[19] = "4.1";
    let sittings: &[(&str, &[&str])] = &[
        ("2025-02-01", &all),
        ("2025-02-08", &one),
        ("2025-02-12", &one),
    ];
    let top = tray(SOWN, 20, sittings);
    holds(&said(&top, "growth K"), &["not: exponential"]);
}

#[test]
fn a_claimed_parent_is_in_doubt_whatever_the_other_is() {
    for parents in [
        "known(seed: \"V\", pollen: \"S\")",
        "known(seed: \"V\", pollen: \"?\")",
        "pollen_unknown(seed: \"V\")",
        "open(seed: \"V\")",
        "pollen_one_of(seed: \"V\", pollen: [\"V\", \"S\"])",
        "pollen_mixed(seed: \"V\", pollen: [\"V\", \"S\"])",
    ] {
        for (confidence, is_doubtful) in [("claim", true), ("tag", false)] {
            let top = of(&format!(
                "parents: {parents}, confidence: {confidence}, seedlings: [(number: \"1\")]"
            ));
            let card = said(&top, "card K-1 --json");
            let mark = if is_doubtful { " (in doubt)" } else { "" };
            let clone = format!("\"clone\": \"V{mark}\"");
            let seed = card.split(&clone).nth(1).unwrap_or_default();
            let doubt = seed.split("\"doubtful\": ").nth(1).unwrap_or_default();
            assert!(
                doubt.starts_with(&is_doubtful.to_string()),
                "{parents} {confidence}\n{card}"
            );
        }
    }
}

/// Whoever holds the paper has no command line.
#[test]
fn no_picture_names_a_command() {
    for question in ["merit --trait span", "variation X18-01 X22-02 --trait span"] {
        let words = picture(&copied(), question);
        holds(&words, &["less sure than a tag", "not: podbook", "not: `"]);
    }
}

#[test]
fn notes_of_several_plants_say_of_which() {
    let top = of("parents: pollen_unknown(seed: \"V\"), seedlings: [(number: \"1\")]");
    let words = picture(&top, "parentage K-1 V");
    holds(
        &words,
        &["K-1: part of the descent is not known", "not: V: part"],
    );
    holds(&picture(&top, "parentage K-1"), &["not: K-1: part"]);
}

#[test]
fn parents_recorded_as_unknown_are_not_left_out() {
    let top = of("parents: unknown, seedlings: [(number: \"1\")]");
    let grown = "crosses/L.ron";
    let page =
        "(code: \"L\", parents: known(seed: \"K-1\", pollen: \"V\"), seedlings: [(number: \"1\")])";
    std::fs::write(top.path().join(grown), page).expect("a page can be written");
    holds(
        &picture(&top, "pedigree L-1 -n 1"),
        &["not: not drawn here"],
    );
    holds(
        &picture(&top, "pedigree K-1 --down"),
        &["not: not drawn here"],
    );
    holds(
        &picture(&top, "pedigree L-1 -n 2"),
        &["not: not drawn here"],
    );
}

/// Size of the letters of a code on a sheet for the bench, points.
fn letters_of_code(code: &str, columns: &str) -> f64 {
    let top = BenchTop::sound().file(
        "clones.ron",
        &format!("(clones: [(code: \"{code}\", received: \"N. ventricosa\", ramets: [(code: \"a\", place: \"x\")])])"),
    );
    let asked = format!("sheet --place x {columns} -o x.svg --today 2026-06-01");
    let run = top.run(&asked.split_whitespace().collect::<Vec<_>>());
    assert_eq!(run.exit, Some(0), "{run}");
    let page = top.text("x.svg");
    let before = page.split(&format!(">{code}")).next().unwrap_or_default();
    let size = before.rsplit("font-size=\"").next().unwrap_or_default();
    let size = size.split('"').next().unwrap_or_default();
    size.parse().expect("a size of letters")
}

#[test]
fn a_long_code_is_read_with_wet_hands() {
    let long = "Bicalcarata-x-ampullaria-15";
    for code in ["V1", long] {
        assert_eq!(letters_of_code(code, "--stocktake"), 10.0, "{code}");
    }
    assert!(letters_of_code(&long.repeat(2), "--stocktake") >= 7.0);
    assert!(letters_of_code(long, "--traits span") >= 7.0);
}
