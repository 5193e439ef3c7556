//! Which cross is faster, when one was read at 30 months and the other at 20?

use crate::bench_top::BenchTop;
use insta::assert_snapshot;
use serde_json::Value;

fn registry() -> BenchTop {
    BenchTop::with([
        ("registry.ron", include_str!("faster_cross/registry.ron")),
        ("species.ron", include_str!("faster_cross/species.ron")),
        ("clones.ron", include_str!("faster_cross/clones.ron")),
        (
            "crosses/X21-03.ron",
            include_str!("faster_cross/crosses/X21-03.ron"),
        ),
        (
            "crosses/X22-07.ron",
            include_str!("faster_cross/crosses/X22-07.ron"),
        ),
    ])
}

#[test]
fn the_whole_answer() {
    assert_snapshot!(registry().run(&["growth", "X21-03", "X22-07"]));
}

/// The grower's own reckoning: 5.2 cm at 19.5 months (n = 44) against 6.4 at 20.0 (n = 61 of 64) is 1.2 cm or 23 %.
#[test]
fn the_figures() {
    let run = registry().run(&["growth", "X21-03", "X22-07", "--json"]);
    let answer: Value = serde_json::from_str(&run.stdout).expect("JSON");
    let pair = &answer["comparisons"][0];
    let number = |value: &Value| value.as_f64().expect("a number");
    let tenth = |value: &Value| (10.0 * number(value)).round() / 10.0;
    let (a, b) = (&pair["sides"][0], &pair["sides"][1]);
    assert_eq!((tenth(&a["median"]), tenth(&b["median"])), (5.2, 6.4));
    assert_eq!((tenth(&a["mean"]), tenth(&b["mean"])), (5.2, 6.4));
    assert_eq!((tenth(&a["age"]), tenth(&b["age"])), (19.5, 20.0));
    assert_eq!((a["n"].as_u64(), b["n"].as_u64()), (Some(44), Some(61)));
    assert_eq!(b["plants"].as_u64(), Some(64));
    assert_eq!(
        (a["interpolated"].as_u64(), b["interpolated"].as_u64()),
        (Some(0), Some(0))
    );
    assert_eq!(tenth(&pair["difference"]), 1.2);
    assert_eq!(number(&pair["percent"]).round(), 23.0);
    assert_eq!(pair["verdict"], "probably");
    assert!(number(&pair["interval"][0]) > 0.0);
    let unlike = |what: &str| {
        let rows = pair["circumstances"].as_array().expect("rows");
        rows.iter()
            .any(|row| row["what"] == what && row["alike"] == false)
    };
    assert!(unlike("sown") && unlike("place") && unlike("light"));
    assert!(
        run.stdout.contains("\"n\": 40"),
        "forty were left at 30 months"
    );
}

/// Raw sizes of 30 and 20 months are told as not comparable, never set against each other.
#[test]
fn the_latest_sizes_are_not_set_against_each_other() {
    let run = registry().run(&["growth", "X21-03", "X22-07"]);
    let words = run.stdout.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(words.contains("X22-07 is probably larger than X21-03 at 20 months, by 1.2 cm (23 %)"));
    assert!(words.contains("the latest sizes are not comparable: X21-03 median 9.6 cm at 30.0 months, X22-07 median 6.4 cm at 20.0 months"));
}

/// At 30 months X22-07 was not there yet: no guess.
#[test]
fn an_age_one_has_not_reached_is_not_guessed() {
    let run = registry().run(&["growth", "X21-03", "X22-07", "--at", "30"]);
    assert!(
        run.stdout
            .contains("are not comparable: they do not both have a size at 30 months")
    );
}
