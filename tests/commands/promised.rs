//! `podbook promised`: what was said of plants that left, and slips for those of which it no longer holds.

use crate::bench_top::BenchTop;
use insta::assert_snapshot;

/// Two seedlings were sold as children of one father, who turned out to be one of two; a third left as a piece.
fn sold() -> BenchTop {
    BenchTop::with([
        (
            "registry.ron",
            r#"(genus: "Nepenthes", hemisphere: north, grower: "a *grower* <b>", contact: "at the club")"#,
        ),
        (
            "species.ron",
            r#"(species: [(epithet: "ventricosa"), (epithet: "spathulata"), (epithet: "maxima")])"#,
        ),
        (
            "clones.ron",
            r#"(clones: [
            (code: "V1", received: "N. ventricosa", confidence: tag),
            (code: "S1", received: "N. spathulata", confidence: tag),
            (code: "M1", received: "N. maxima", confidence: tag,
                ramets: [(code: "a", made: original), (code: "b", from: "a", made: cutting, fate: given(on: "2023", said: "N. maxima [old]"))]),
        ])"#,
        ),
        (
            "crosses/X22-01.ron",
            r#"(code: "X22-01", parents: pollen_one_of(seed: "V1", pollen: ["S1", "M1"]), confidence: witnessed, seedlings: [
            (number: "1", fate: sold(on: "2024-02-01", to: "a secret", price: "secret", said: "N. ventricosa × N. spathulata")),
            (number: "2", fate: sold(on: "2024-03-01", said: "N. ventricosa × N. spathulata")),
            (number: "3", fate: sold(on: "2024-03-01")),
        ])"#,
        ),
    ])
}

#[test]
fn slips_are_written_for_those_whose_words_no_longer_hold() {
    let top = sold();
    let all = top.run(&["promised", "--format", "markdown"]);
    assert_eq!(all.exit, Some(1), "{all}");
    assert_snapshot!("promised-slips", all.stdout);
    assert!(!all.stdout.contains("secret"), "{all}");
    let one = top.run(&["promised", "X22-01-2", "--format", "markdown"]);
    assert_eq!(one.stdout.matches("# Correction for").count(), 1, "{one}");
    assert!(one.stdout.contains("X22-01-2"), "{one}");
}

/// A plant stands for its pieces; a piece for itself.
#[test]
fn plants_are_chosen_by_code() {
    let top = sold();
    let count = |asked: &str| {
        let run = top.run(&["promised", asked, "--json"]);
        let value: serde_json::Value = serde_json::from_str(&run.stdout).expect("JSON");
        let changed = value["changed"].as_array().map_or(0, Vec::len);
        (changed, value["without"].as_u64(), run.exit)
    };
    assert_eq!(count("M1"), (1, Some(0), Some(1)));
    assert_eq!(count("M1-b"), (1, Some(0), Some(1)));
    assert_eq!(count("M1-a"), (0, Some(0), Some(0)));
    assert_eq!(count("X22-01-3"), (0, Some(1), Some(0)));
    let none = top.run(&["promised", "M1-a", "--format", "markdown"]);
    assert_eq!(
        none.stdout,
        "No text that went with a plant has to be corrected.\n"
    );
    let refused = top.run(&["promised", "X22-01"]);
    assert_eq!(refused.exit, Some(2), "{refused}");
    assert!(
        refused.stderr.contains("neither a plant nor a piece"),
        "{refused}"
    );
}
