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

/// Up to three plants or crosses are named, of more their number.
#[test]
fn what_takes_parents_as_right_names_few_and_counts_many() {
    let page = cross("claim");
    let of_l = format!("(code: \"L\", parents: known(seed: \"V\", pollen: \"S\"), {page})");
    let top = of(&page).file("crosses/L.ron", &of_l);
    let three = said(&top, "merit K-1 K-2 K-3 --trait span");
    holds(&three, &["right: those of K-3, K-2, K-1, or parents"]);
    let four = said(&top, "merit K-1 K-2 K-3 K-4 --trait span");
    holds(&four, &["right: those of 4 of the 4 here, or parents"]);
    let words =
        "what ancestry predicts holds only if the recorded parents are right: those of K, L, or";
    holds(&said(&top, "variation K L --trait span"), &[words]);
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

/// Two seedlings of a pod dusted from an envelope of two plants and one that was mixed up with another, and cross L of which it
/// is the father.
fn from_envelopes(zones: &str) -> BenchTop {
    let pollen = r#"(lots: [(code: "E1", from: one_of(["S", "V"])), (code: "E2", from: one_of(["V", "S"])), (code: "E3", from: unknown)])"#;
    let of_l = r#"(code: "L", parents: known(seed: "V", pollen: "K-2"), confidence: witnessed,
        pollinations: [(zone: "a", on: ["2025-05-01"])], seedlings: [(number: "1")])"#;
    of(&format!(
        r#"confidence: witnessed, pollinations: [{zones}], pods: [(code: "P1", zone: "a")], seedlings: [(number: "1", pod: "P1"),
        (number: "2", pod: "P1", muddled: [(on: "2024-05-01", with: ["K-3"])]), (number: "3", pod: "P1")]"#
    ))
    .file("pollen.ron", pollen)
    .file("crosses/L.ron", of_l)
}

/// Whether a parent on a card is in doubt; then its code says so, too.
fn is_doubtful(top: &BenchTop, plant: &str, parent: &str) -> bool {
    let card = said(top, &format!("card {plant} --json"));
    let of_parent = card.split(&format!("\"clone\": \"{parent}")).nth(1);
    let of_parent = of_parent.expect("a parent on the card");
    let word = of_parent.split("\"doubtful\": ").nth(1);
    let is_doubtful = word.expect("a word").starts_with("true");
    assert_eq!(
        of_parent.starts_with(" (in doubt)\""),
        is_doubtful,
        "{card}"
    );
    let in_words = said(top, &format!("card {plant}"));
    assert_eq!(
        in_words.contains(&format!("{parent} (in doubt): ")),
        is_doubtful,
        "{in_words}"
    );
    is_doubtful
}

#[test]
fn a_father_in_doubt_by_his_envelope_or_a_mix_up_is_named_in_no_table() {
    let top = from_envelopes(r#"(zone: "a", on: ["2023-05-01"], pollen: "E1")"#);
    let table = said(&top, "export pedigree");
    holds(
        &table,
        &[
            "K-1,V,,seed parent witnessed; father one of two by the envelope (S or V)",
            "L-1,V,,\"seed parent witnessed; father one of two (K-2 or K-3, mixed up by then)\"",
        ],
    );
    assert!(is_doubtful(&top, "K-1", "S") && is_doubtful(&top, "L-1", "K-2"));
    assert!(!is_doubtful(&top, "K-1", "V") && !is_doubtful(&top, "L-1", "V"));
}

/// Of several envelopes the one that knows the least is said, of those that know as much the first.
#[test]
fn a_cross_is_as_sure_of_its_father_as_its_least_sure_envelope() {
    let zone = |of: &str, lot: &str| format!(r#"(zone: "{of}", pollen: "{lot}")"#);
    let two = [zone("a", "E1"), zone("b", "E2")].join(", ");
    let by_envelope = "father one of two by the envelope (S or V)";
    holds(&said(&from_envelopes(&two), "name K"), &[by_envelope]);
    let three = [two, zone("c", "E3")].join(", ");
    let unknown = "father not known by the envelope";
    holds(&said(&from_envelopes(&three), "name K"), &[unknown]);
}

/// A plant that may be of another cross lends nothing to its siblings, and takes nothing from them.
#[test]
fn a_plant_of_one_of_two_crosses_stands_apart_from_its_siblings() {
    let top = of(
        r#"confidence: witnessed, pods: [(code: "P1")], seedlings: [(number: "1", pod: "P1"),
        (number: "2", pod: "P1", muddled: [(on: "2024-05-01", with: ["L-1"])]), (number: "3", pod: "P1")]"#,
    )
    .file(
        "crosses/L.ron",
        r#"(code: "L", parents: known(seed: "S", pollen: "V"), confidence: witnessed, seedlings: [(number: "1")])"#,
    );
    holds(
        &said(&top, "export pedigree"),
        &[
            "K-1,V,S,parents witnessed K-2,,,from one of two crosses (mixed up with L-1)",
            "K-3,V,S,parents witnessed L-1,,,from one of two crosses (mixed up with K-2)",
        ],
    );
    assert!(is_doubtful(&top, "K-2", "S") && !is_doubtful(&top, "K-1", "S"));
}

/// A founder has no recorded parents that merit takes as right: a doubt about its name is none about them.
#[test]
fn merit_takes_no_parents_of_a_founder_as_right() {
    let cross = |code: &str, [seed, pollen]: [&str; 2], least: u32| {
        let seedlings: String = (1..=4)
            .map(|n| format!("(number: \"{n}\", sowing: \"S1\"), "))
            .collect();
        let rows: String = (1..=4)
            .map(|n| format!("[\"{n}\", \"{}\"], ", least + n))
            .collect();
        format!(
            "(code: \"{code}\", parents: known(seed: \"{seed}\", pollen: \"{pollen}\"), confidence: witnessed, \
             sowings: [(code: \"S1\", on: \"2024-01-01\")], seedlings: [{seedlings}], \
             sittings: [(on: \"2025-01-01\", columns: [\"span cm\"], rows: [{rows}])])"
        )
    };
    let more = "clones: [(code: \"T\", received: \"N. spathulata\", confidence: tag), (code: \"W\", received: \"N. ventricosa\", confidence: tag),";
    let claimed = "received: \"N. spathulata\", confidence: claim";
    let top = of("")
        .file("crosses/K.ron", &cross("K", ["V", "S"], 3))
        .file("crosses/L.ron", &cross("L", ["V", "T"], 5))
        .file("crosses/M.ron", &cross("M", ["W", "S"], 6))
        .file("crosses/N.ron", &cross("N", ["W", "T"], 9))
        .change("clones.ron", &claimed.replace("claim", "tag"), claimed)
        .change("clones.ron", "clones: [", more);
    let answer = said(&top, "merit S T --trait span");
    holds(
        &answer,
        &["S ", "offspring", "not: recorded parents are right"],
    );
}
