//! `docs/bring-in.md` is true: its commands print what it shows on the tables it shows, and it lists every class with its
//! choices.

use crate::run::hold_in;
use podbook::record::RowClass;

const PAGE: &str = include_str!("../../docs/bring-in.md");

#[test]
fn the_page_is_true() {
    let scratch = tempfile::tempdir().expect("a scratch folder");
    for fence in PAGE.split("```text ").skip(1) {
        let (name, rest) = fence.split_once('\n').expect("a name");
        let text = rest.split("```").next().expect("a table");
        std::fs::write(scratch.path().join(name), text).expect("a table is written");
    }
    hold_in("bring-in.md", PAGE, scratch.path());
}

#[test]
fn every_class_and_choice_is_on_the_page() {
    for class in RowClass::ALL {
        let begins = format!("| `{}` |", class.word());
        let row = PAGE.lines().find(|line| line.starts_with(&begins));
        let row = row.unwrap_or_else(|| panic!("no row of {}", class.word()));
        let others = row.rsplit('|').nth(1).expect("the last column");
        for choice in &class.choices()[1..] {
            assert!(
                others.contains(&format!("`{}`", choice.word())),
                "{}: {row}",
                choice.word()
            );
        }
        assert_eq!(
            others.matches('`').count(),
            2 * (class.choices().len() - 1),
            "{row}"
        );
    }
}
