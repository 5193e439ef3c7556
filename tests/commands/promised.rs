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

/// The same slips on pages of A5, each with its plant, what was said and what holds now.
#[test]
fn slips_are_printed() {
    let top = sold();
    let file = top.path().join("slips.pdf");
    let run = top.run(&["promised", "-o", "slips.pdf"]);
    assert_eq!(run.exit, Some(1), "{run}");
    let bytes = std::fs::read(&file).expect("the slips were written");
    top.run(&["promised", "-o", "again.pdf"]);
    assert_eq!(
        bytes,
        std::fs::read(top.path().join("again.pdf")).expect("written again")
    );
    let asked = |program: &str, more: &[&str]| {
        let run = std::process::Command::new(program)
            .args(more)
            .arg(&file)
            .arg("-")
            .output();
        run.ok()
            .map(|run| String::from_utf8_lossy(&run.stdout).into_owned())
    };
    let Some(text) = asked("pdftotext", &[]) else {
        return;
    };
    let plain = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let said = top.run(&["promised", "--json"]);
    let said: serde_json::Value = serde_json::from_str(&said.stdout).expect("JSON");
    let changed = said["changed"].as_array().expect("slips");
    assert_eq!(
        text.matches('\u{c}').count(),
        changed.len(),
        "a page for each"
    );
    for slip in changed {
        let part = |of: &str| slip[of].as_str().expect("words").to_owned();
        // A whole day is on, a year is in.
        let at = if part("on").len() == 10 { "on" } else { "in" };
        let left = format!(
            "Correction for {} This plant left {at} {}",
            part("plant"),
            part("on")
        );
        let said = format!("It said: {} It now reads: {}", part("was"), part("now"));
        for words in [left, said] {
            assert!(plain.contains(&words), "{words} in {plain}");
        }
    }
    assert!(plain.contains("a *grower* <b>, at the club"), "{plain}");
    assert!(!plain.contains("secret"), "{plain}");
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

/// A spreadsheet has its headings although no text has to be corrected.
#[test]
fn the_headings_stand_where_there_is_nothing_to_correct() {
    let csv = BenchTop::sound().run(&["promised", "--format", "csv"]);
    assert_eq!(csv.stdout.trim_end(), "plant,left on,it said,now", "{csv}");
    let csv = sold().run(&["promised", "--format", "csv"]).stdout;
    assert!(
        csv.contains("X22-01-1,2024-02-01,N. ventricosa × N. spathulata,"),
        "{csv}"
    );
}
