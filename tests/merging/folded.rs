//! Two founders there that are one plant here: one took the plant's lineage in, the other had the plant already.

use crate::book::Book;
use crate::others::merging_as_one;
use podbook::recording::says::value::Record;

const OURS: [(&str, &str); 3] = [
    (
        "registry.ron",
        r#"(genus: "Nepenthes", hemisphere: north, registry: "alder", format: 2, traits: [(code: "span", name: "span", reads: length(cm))])"#,
    ),
    (
        "species.ron",
        r#"(species: [(epithet: "mira"), (epithet: "veitchii")])"#,
    ),
    (
        "clones.ron",
        r#"(clones: [(code: "V1", received: "N. mira", from: "a friend", locality: "the ridge",
            flowerings: [(code: "24a", opened: "2024-05", sex: male)], note: "ours")])"#,
    ),
];

/// Theirs: a plant of their own, and ours, which came with the lineage of another.
fn theirs(locality: &str) -> Book {
    let clones = r#"(clones: [
        (code: "Q7", received: "N. mira", from: "a friend", on: "2020", LOCALITY note: "theirs",
            identified: [(on: "2022-01-02", name: "N. mira 'wide'", by: "a visitor")],
            flowerings: [(code: "24a", opened: "2024-07", sex: male)]),
        (code: "V1", received: "N. mira", told_by: (registry: "alder", code: "V1"), fate: elsewhere, locality: "the ridge",
            identified: [(on: "2023-01-02", name: "N. mira 'narrow'", by: "me")],
            flowerings: [(code: "24a", opened: "2024-05", sex: male)]),
        (code: "Z1", received: "N. veitchii"),
    ], sittings: [(on: "2024-03-01", by: "me", columns: ["span cm"], rows: [["Q7", "7"], ["V1", "8"]])])"#;
    Book::of(&[
        (
            "registry.ron",
            r#"(genus: "Nepenthes", hemisphere: north, registry: "birch", format: 2, traits: [(code: "span", name: "span", reads: length(cm))])"#,
        ),
        (
            "species.ron",
            r#"(species: [(epithet: "mira"), (epithet: "veitchii")])"#,
        ),
        ("clones.ron", &clones.replacen("LOCALITY", locality, 1)),
        (
            "crosses/X22-01.ron",
            r#"(code: "X22-01", parents: pollen_mixed(seed: "Z1", pollen: ["V1", "Q7"]), seedlings: [(number: "1")])"#,
        ),
    ])
}

/// Every opinion and reading of both is on the one record, once.
#[test]
fn two_founders_there_that_are_one_here_fold_into_one() {
    let mut ours = Book::of(&OURS);
    let theirs = theirs("");
    let was = ours.clone();
    let same = [("V1".to_owned(), "Q7".to_owned())];
    let merged = merging_as_one(&ours, &theirs, ("birch", None), &same).unwrap();
    assert!(merged.clashes.is_empty(), "{:#?}", merged.clashes);
    ours.write(&merged.changes, None, Some(&merged.memory));
    assert_eq!(ours.faults(), 0, "{:#?}", ours.pages);
    let clones = Record::of_page(&ours.pages["clones.ron"]).unwrap();
    assert_eq!(clones.records("clones").count(), 2);
    let one = clones.record("clones", 0).unwrap();
    let line = |field: &str| one.get(field).map(|value| value.line()).unwrap_or_default();
    assert_eq!(line("foreign"), r#"(registry: "birch", code: "Q7")"#);
    assert_eq!(
        line("identified"),
        r#"[(on: "2023-01-02", name: "N. mira 'narrow'", by: "birch"), (on: "2022-01-02", name: "N. mira 'wide'", by: "birch, a visitor")]"#
    );
    let flowerings = line("flowerings");
    // What they saw on their own piece stays with them.
    for (opened, count) in [("2024-05", 1), ("2024-07", 0)] {
        assert_eq!(flowerings.matches(opened).count(), count, "{flowerings}");
    }
    assert_eq!(
        (one.text("received"), one.text("note")),
        (Some("N. mira"), Some("ours"))
    );
    let page = &ours.pages["clones.ron"];
    assert!(
        page.contains(r#"["V1", "7"]"#) && page.contains(r#"["V1", "8"]"#),
        "{page}"
    );
    // Again nothing comes, whether it is said once more or not, and taken back it is as it was.
    for same in [&same[..], &[]] {
        let again = merging_as_one(&ours, &theirs, ("birch", None), same).unwrap();
        assert!(again.changes.is_empty(), "{again:#?}");
    }
    ours.undo(1);
    assert_eq!(ours.pages, was.pages);
}

/// Where both say something else in one field, what gives way is said.
#[test]
fn what_one_of_the_two_says_otherwise_is_said() {
    let mut ours = Book::of(&OURS);
    let clones = ours.pages["clones.ron"].replacen("locality: \"the ridge\",", "", 1);
    ours.replace("clones.ron", true, &clones);
    let same = [("V1".to_owned(), "Q7".to_owned())];
    let theirs = theirs("locality: \"the valley\",");
    let merged = merging_as_one(&ours, &theirs, ("birch", None), &same).unwrap();
    let now = merged.changes.iter().find(|of| of.path == "clones.ron");
    let now = now.unwrap().now.as_ref().unwrap();
    assert!(
        now.contains("the valley") && !now.contains("the ridge"),
        "{now}"
    );
    assert_eq!(
        merged.remarks,
        [(
            "clones.ron".to_owned(),
            vec!["V1, locality: \"the ridge\"".to_owned()]
        )]
    );
}
