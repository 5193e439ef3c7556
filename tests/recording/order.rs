//! The order in which records are written says nothing.

use crate::played::said;
use std::fs;
use tempfile::TempDir;

const TODAY: &str = "2025-06-01";

fn registry(founder: &str, seedling: &str) -> TempDir {
    let folder = tempfile::tempdir().unwrap();
    fs::create_dir(folder.path().join("crosses")).unwrap();
    let write = |path: &str, text: String| fs::write(folder.path().join(path), text).unwrap();
    write(
        "registry.ron",
        "(genus: \"Nepenthes\", hemisphere: north, format: 2)".to_owned(),
    );
    write(
        "species.ron",
        "(species: [(epithet: \"lowii\"), (epithet: \"maxima\"), (epithet: \"veitchii\")])"
            .to_owned(),
    );
    write(
        "clones.ron",
        format!(
            "(clones: [(code: \"L1\", received: \"N. lowii\", {founder}), (code: \"M1\", received: \"N. maxima\")])"
        ),
    );
    write(
        "crosses/X22-01.ron",
        format!(
            "(code: \"X22-01\", parents: known(seed: \"L1\", pollen: \"M1\"), confidence: witnessed, \
             sowings: [(code: \"S1\", on: \"2021-01-01\")], seedlings: [(number: \"1\", sowing: \"S1\", {seedling})])"
        ),
    );
    folder
}

/// What both orders of two records of a seedling are answered with, which is the same.
fn of_seedling(list: &str, [one, other]: [&str; 2], line: &str) -> String {
    let answer = |first: &str, second: &str| {
        let folder = registry("", &format!("{list}: [{first}, {second}]"));
        said(folder.path(), line, TODAY)
    };
    let said = answer(one, other);
    assert_eq!(said, answer(other, one), "{list}");
    said
}

#[test]
fn all_treatments_that_may_be_the_last_are_on_the_card() {
    let card = |of| of_seedling("treatments", of, "card X22-01-1");
    let both = card([
        r#"(on: "2023-05", product: "soap", against: "aphids")"#,
        r#"(on: "2023-05", product: "oil", against: "scale")"#,
    ]);
    assert!(both.contains("oil against scale; "), "{both}");
    assert!(both.contains("soap against aphids"), "{both}");
    let vague = card([
        r#"(on: "2023", product: "soap")"#,
        r#"(on: "2023-05-02", product: "oil")"#,
    ]);
    assert!(vague.contains("soap; ") && vague.contains("oil"), "{vague}");
    let last = card([
        r#"(on: "2022", product: "soap")"#,
        r#"(on: "2023-05-02", product: "oil")"#,
    ]);
    assert!(last.contains("oil") && !last.contains("soap"), "{last}");
}

#[test]
fn the_first_open_flowers_and_the_latest_guess_are_those_by_date() {
    let card = |of| of_seedling("flowerings", of, "card X22-01-1");
    let flowers = card([
        r#"(opened: "2024-05-20", sex: female)"#,
        r#"(opened: "2023-05", sex: female)"#,
    ]);
    assert!(
        flowers.contains("seen on open flowers, 2023-05"),
        "{flowers}"
    );
    let guess = card([
        r#"(opened: "2024-05-20", sex: female, seen_by: buds)"#,
        r#"(opened: "2023-05-02", sex: female, seen_by: leaf_test)"#,
    ]);
    assert!(guess.contains("a guess from buds, 2024-05-20"), "{guess}");
    let undated = card([r#"(sex: female)"#, r#"(opened: "2023-05", sex: female)"#]);
    assert!(
        undated.contains("seen on open flowers, 2023-05"),
        "{undated}"
    );
}

#[test]
fn of_two_pots_of_one_day_the_wider_is_the_later() {
    let pots = [
        r#"(on: "2023-05-01", pot: "7 cm", place: "b")"#,
        r#"(on: "2023-05-01", pot: "55 mm", place: "a")"#,
    ];
    let card = of_seedling("pots", pots, "card X22-01-1");
    assert!(card.contains("7 cm since 2023-05-01"), "{card}");
    let show = of_seedling("pots", pots, "show X22-01-1");
    assert!(show.contains("place b"), "{show}");
}

#[test]
fn of_two_accepted_opinions_the_later_by_date_gives_the_name() {
    let name = |opinions: [&str; 2]| {
        let folder = registry(&format!("identified: [{}]", opinions.join(", ")), "");
        let said = |line| said(folder.path(), line, TODAY);
        (said("show L1"), said("name X22-01-1"))
    };
    let early = r#"(on: "2018", name: "N. maxima", accepted: true)"#;
    let late = r#"(on: "2022", name: "N. veitchii", accepted: true)"#;
    for opinions in [[early, late], [late, early]] {
        let (shown, name) = name(opinions);
        assert!(name.contains("N. veitchii"), "{name}");
        assert!(shown.contains("accepted, a later one is shown"), "{shown}");
        assert!(!shown.contains("written last"), "{shown}");
    }
    // Where the dates do not say it, order does.
    let vague = r#"(on: "2018 to 2023", name: "N. maxima", accepted: true)"#;
    let (shown, formula) = name([late, vague]);
    assert!(formula.contains("N. maxima"), "{formula}");
    assert!(shown.contains("the one written last is shown"), "{shown}");
}
