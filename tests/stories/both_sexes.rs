//! Are there both sexes to breed sibling to sibling, and which plant has no spare?

use crate::bench_top::BenchTop;
use insta::assert_snapshot;

/// V1 bore eight crosses in the book: X19-04 and seven more.
fn registry() -> BenchTop {
    let mut files = vec![
        (
            "registry.ron".to_owned(),
            include_str!("both_sexes/registry.ron").to_owned(),
        ),
        (
            "species.ron".to_owned(),
            include_str!("both_sexes/species.ron").to_owned(),
        ),
        (
            "clones.ron".to_owned(),
            include_str!("both_sexes/clones.ron").to_owned(),
        ),
        (
            "crosses/X19-04.ron".to_owned(),
            include_str!("both_sexes/crosses/X19-04.ron").to_owned(),
        ),
    ];
    for serial in 1..=7 {
        let page = format!(
            "(code: \"X21-0{serial}\", parents: known(seed: \"V1\", pollen: \"B2\"), confidence: witnessed)"
        );
        files.push((format!("crosses/X21-0{serial}.ron"), page));
    }
    BenchTop::with(
        files
            .iter()
            .map(|(path, text)| (path.as_str(), text.as_str())),
    )
}

#[test]
fn the_whole_answer() {
    assert_snapshot!(registry().run(&["show", "X19-04", "V1"]));
}

/// Three males, no female, two dead unsexed, four unsexed: 1 − ½⁴ = 94 % for at least one female, and the dead still count.
#[test]
fn the_figures() {
    let run = registry().run(&["show", "X19-04"]);
    let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("0 female, 3 male, 4 unsexed here, 2 gone unsexed"),
        "{words}"
    );
    assert!(
        words.contains("at least one female among the 4 unsexed is 94 %"),
        "{words}"
    );
    assert!(words.contains("9 numbered, 7 here, 7 kept"), "{words}");
    assert!(
        words.contains("V1 (seed parent of 8 crosses) has one piece on record here"),
        "{words}"
    );
    assert!(!words.contains("V3 (pollen parent"), "V3 has a spare");
}

/// What `plan` says of the same line: 94 % if sexes come one to one whatever was seen; three males in a row make it less,
/// 1 − (13·14·15·16)/(23·24·25·26) = 88 %. No sowing is dated, so no year is told.
#[test]
fn the_seasons_ahead() {
    let run = registry().run(&["plan", "--json"]);
    let found: serde_json::Value = serde_json::from_str(&run.stdout).expect("the answer is JSON");
    let line = &found["later"]["lines"][0];
    assert_eq!(line["line"], "X19-04");
    assert_eq!(
        line["held"],
        serde_json::json!(["X19-04-6", "X19-04-7", "X19-04-8", "X19-04-9"])
    );
    let number = |field: &str| line[field].as_f64().unwrap();
    assert!((number("once_all_one_to_one") - 0.9375).abs() < 1e-12);
    assert!((number("once_all") - (1.0 - 43_680.0 / 358_800.0)).abs() < 1e-12);
    assert!(line["by_year"][0]["chance"].is_null());
    assert_snapshot!(registry().run(&["plan"]));
}
