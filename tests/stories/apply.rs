//! A proposal to keep, and what is written when it is applied.

use crate::story::Story;
use insta::assert_snapshot;

const RULES: &str = "select X22-07 --weigh span=1 --weigh banding=1 --need banding=2 --keep 4";

#[test]
fn a_proposal_has_a_reason_on_every_row_and_writes_nothing() {
    let story = Story::named("fast");
    let before = story.text("crosses/X22-07.ron");
    let told = story.ask(&format!(
        "{RULES} --minutes 3 --both-sexes 0.9 --shelf 20x20 --shelves 1"
    ));
    assert_snapshot!(told);
    assert_eq!(before, story.text("crosses/X22-07.ron"));
    // Number 12 was flagged for pests and number 6 not read for banding: both wait, neither is let go.
    for number in [6, 12] {
        let code = format!("X22-07-{number} ");
        let row = told
            .lines()
            .find(|line| line.contains(&code))
            .expect("a row");
        assert!(row.contains("read first"), "{row}");
    }
}

#[test]
fn applying_marks_those_to_keep_and_touches_no_other_byte() {
    let story = Story::named("fast");
    let before = story.text("crosses/X22-07.ron");
    let told = story.ask(&format!("{RULES} --apply"));
    assert!(told.starts_with("Marked"), "{told}");
    let after = story.text("crosses/X22-07.ron");
    let marks: Vec<&str> = after.split(", kept: (on: \"2024-05-14\"").skip(1).collect();
    assert_eq!(marks.len(), 4, "{after}");
    // Taking every mark out again gives the old bytes.
    let mut restored = String::new();
    let mut rest = after.as_str();
    while let Some(at) = rest.find(", kept: (") {
        restored.push_str(&rest[..at]);
        let end = rest[at..].find("\")").expect("a mark ends") + at + 2;
        rest = &rest[end..];
    }
    restored.push_str(rest);
    assert_eq!(restored, before);
    assert!(!story.ask("check").contains("fault:"));
    // Asked again, the marks stand and nothing is marked twice.
    story.ask(&format!("{RULES} --apply"));
    assert_eq!(after, story.text("crosses/X22-07.ron"));
}

#[test]
fn a_small_cross_is_kept_whole_and_rules_may_lie_in_a_file() {
    let rules = "(weigh: [(of: \"span\", weight: 1)], keep: 1, small_cross: 12)";
    let story = Story::named("fast").file("keep.rules", rules);
    let told = story.ask("select X22-07 --rules keep.rules");
    assert_eq!(
        told.matches("small cross of 12, kept whole").count(),
        12,
        "{told}"
    );
    let story = story.file("keep.rules", "(weight: 1)");
    let told = story.ask("select X22-07 --rules keep.rules");
    assert!(
        told.starts_with("exit Some(3)") && told.contains("keep.rules"),
        "{told}"
    );
}

#[test]
fn without_a_rule_nothing_is_proposed() {
    let told = Story::named("fast").ask("select X22-07");
    assert!(told.contains("no rule says what counts"), "{told}");
}
