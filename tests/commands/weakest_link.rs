//! Which of several ancestors that are as doubtful is named as the weakest link.

use crate::bench_top::BenchTop;

/// Each cross with one seedling; the father of X10-01, X12-02 and X12-03 is one of two.
fn doubtful() -> BenchTop {
    let crosses = [
        (
            "X10-01",
            "pollen_one_of(seed: \"V1\", pollen: [\"S1\", \"T1\"])",
        ),
        ("X12-01", "known(seed: \"X10-01-1\", pollen: \"T1\")"),
        (
            "X12-02",
            "pollen_one_of(seed: \"V1\", pollen: [\"S1\", \"T1\"])",
        ),
        (
            "X12-03",
            "pollen_one_of(seed: \"V1\", pollen: [\"S1\", \"T1\"])",
        ),
        ("X14-01", "known(seed: \"X12-01-1\", pollen: \"X12-02-1\")"),
        ("X14-02", "known(seed: \"X12-03-1\", pollen: \"X12-02-1\")"),
        ("X14-03", "known(seed: \"X12-02-1\", pollen: \"X12-03-1\")"),
    ];
    let top = BenchTop::with([
        ("registry.ron", include_str!("sound/registry.ron")),
        ("species.ron", include_str!("sound/species.ron")),
        (
            "clones.ron",
            r#"(clones: [(code: "V1", received: "N. ventricosa"), (code: "S1", received: "N. spathulata"), (code: "T1", received: "N. truncata")])"#,
        ),
    ]);
    crosses.into_iter().fold(top, |top, (code, parents)| {
        let page = format!(
            "(code: \"{code}\", parents: {parents}, confidence: witnessed, seedlings: [(number: \"1\")])"
        );
        top.file(&format!("crosses/{code}.ron"), &page)
    })
}

/// The nearest one counts, whatever its code; of two as near that of the seed parent.
#[test]
fn the_nearest_of_the_weakest_is_named() {
    let top = doubtful();
    for (plant, holder) in [
        ("X14-01-1", "X12-02-1"),
        ("X14-02-1", "X12-03-1"),
        ("X14-03-1", "X12-02-1"),
    ] {
        let shown = top.run(&["show", plant]).stdout;
        let words = shown.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(
            words.contains(&format!("further back, the father of {}", &holder[..6])),
            "{holder}: {words}"
        );
    }
}
