//! Figures that take the recorded parents as right say so where these are not sure, and say nothing where they are.

use crate::bench_top::BenchTop;
use crate::small_records::{holds, of, said};

/// Six seedlings of a cross read at one age.
fn cross(confidence: &str) -> String {
    let spans = ["10 cm", "11 cm", "12.5 cm", "13 cm", "9 cm", "14 cm"];
    let seedlings: String = (1..=6)
        .map(|n| format!("(number: \"{n}\", sowing: \"S1\"),"))
        .collect();
    let rows: String = (1..)
        .zip(spans)
        .map(|(n, span)| format!("[\"{n}\", \"{span}\"],"))
        .collect();
    format!(
        "confidence: {confidence}, sowings: [(code: \"S1\", on: \"2022-05-01\")], seedlings: [{seedlings}], \
         sittings: [(on: \"2024-05-01\", method: \"ruler\", columns: [\"span\"], rows: [{rows}])]"
    )
}

/// The first screen, which has no `--full`.
fn screen(top: &BenchTop, question: &str) -> String {
    let run = std::process::Command::new(env!("CARGO_BIN_EXE_podbook"))
        .args(question.split(' '))
        .args(["--today", "2026-06-01", "--registry"])
        .arg(top.path())
        .output()
        .expect("podbook runs");
    let text = String::from_utf8(run.stdout).expect("text");
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn merit_says_that_parents_are_not_sure() {
    for (confidence, marked) in [
        ("claim", ""),
        ("one_of_several", ""),
        ("witnessed", "not: "),
    ] {
        let doubt = format!("{marked}merit holds only if the recorded parents are right: those of");
        let answer = said(&of(&cross(confidence)), "merit --trait span");
        holds(&answer, &["leaf span", &doubt]);
    }
}

/// The screen of `pair` has the evidence of a parent that is less sure than a tag, whatever the doubt.
#[test]
fn pair_shows_a_doubt_about_a_parent_on_its_first_screen() {
    let on_screen = |confidence: &str| screen(&of(&cross(confidence)), "pair V K-1");
    let several = "K-1: parents one of several, the others not recorded";
    holds(&on_screen("one_of_several"), &[several]);
    let unknown = "K-1: how the parents are known is not recorded";
    holds(&on_screen("unknown"), &[unknown]);
    holds(
        &on_screen("witnessed"),
        &["pollen parent K-1", "not: K-1: parents"],
    );
}

/// An accepted opinion on a seedling leaves its name that of its parents; whatever says how these are known says it too.
#[test]
fn an_accepted_opinion_on_a_seedling_stands_beside_its_parents() {
    let top = of(
        "confidence: witnessed, seedlings: [(number: \"1\", identified: [(name: \"N. ventricosa x maxima\", by: \"me\", accepted: true)]), \
         (number: \"2\", identified: [(name: \"N. ventricosa x maxima\", by: \"Ann\")])]",
    );
    let words = "identified as “N. ventricosa x maxima” (accepted opinion)";
    for question in ["card K-1", "name K-1", "export passport"] {
        let answer = said(&top, question);
        assert_eq!(answer.matches(words).count(), 1, "{question}: {answer}");
    }
    holds(
        &said(&top, "card K-2"),
        &["parents witnessed", "not: accepted opinion"],
    );
}
