//! Awkward trays: nobody, one, two, all alike, nobody read, ages that never meet.

use crate::story::Story;
use insta::assert_snapshot;

/// A cross page with these seedlings and sittings.
fn page(code: &str, sown: &str, read: &str, sizes: &[&str]) -> String {
    let seedlings: String = (1..=sizes.len())
        .map(|n| format!("(number: \"{n}\"), "))
        .collect();
    let rows: String = sizes
        .iter()
        .enumerate()
        .filter(|(_, size)| !size.is_empty())
        .map(|(at, size)| format!("[\"{}\", \"{size}\"], ", at + 1))
        .collect();
    format!(
        "(code: \"{code}\", parents: known(seed: \"B1\", pollen: \"V3\"), confidence: witnessed, \
         sowings: [(code: \"S1\", on: \"{sown}\")], seedlings: [{seedlings}], \
         sittings: [(on: \"{read}\", columns: [\"span cm\"], rows: [{rows}])])"
    )
}

fn with(sizes: &[&str]) -> Story {
    Story::named("spring").file(
        "crosses/X21-09.ron",
        &page("X21-09", "2021-10-01", "2023-10-01", sizes),
    )
}

#[test]
fn nobody_one_and_two_plants_are_told_and_not_described() {
    let told = [&[][..], &["4.2"], &["4.2", "5.0"]].map(|sizes| with(sizes).ask("siblings X21-09"));
    assert_snapshot!(told.join("\n=====\n"));
    for told in &told {
        assert!(!told.contains("NaN") && !told.contains("inf"), "{told}");
    }
}

#[test]
fn all_alike_have_no_spread_and_nothing_divides_by_it() {
    let story = with(&["4.0"; 8]);
    let told = format!(
        "{}\n{}",
        story.ask("siblings X21-09"),
        story.ask("grade X21-09")
    );
    assert_snapshot!(told);
    let spread = story.ask("variation X21-09 X21-04");
    assert!(!spread.contains("NaN"), "{spread}");
    let keep = story.ask("select X21-09 --weigh span=1 --keep 2");
    assert!(!keep.contains("NaN"), "{keep}");
}

#[test]
fn unread_stays_unread() {
    let story = with(&["", "", ""]);
    let told = story.ask("siblings X21-09");
    assert!(
        told.contains("never read on these plants: leaf span"),
        "{told}"
    );
    let told = story.ask("select X21-09 --weigh span=1 --keep 2");
    assert_eq!(told.matches("read first  ").count(), 3, "{told}");
    assert!(story.ask("grade X21-09").starts_with("exit Some(2)"));
}

#[test]
fn ages_that_never_meet_are_not_compared() {
    let story = Story::named("spring").file(
        "crosses/X21-09.ron",
        &page("X21-09", "2021-10-01", "2022-10-01", &["1.0", "1.2", "1.4"]),
    );
    let told = story.ask("variation X21-09 X21-04");
    assert_snapshot!(told);
    assert!(told.contains("not comparable"), "{told}");
}

#[test]
fn measured_and_expected_spread_stand_on_one_line() {
    let sizes = ["2.0", "3.1", "4.4", "5.0", "6.2", "7.9", "9.5", "3.3"];
    let first = page(
        "X21-09",
        "2021-10-01",
        "2024-04-30",
        &["4.0", "4.4", "4.6", "5.0", "5.2", "4.9"],
    );
    // An F2: both parents are seedlings of the primary hybrid.
    let second = page("X23-01", "2021-10-05", "2024-05-03", &sizes)
        .replace("\"B1\"", "\"X21-04-1\"")
        .replace("\"V3\"", "\"X21-04-2\"");
    let story = Story::named("spring")
        .file("crosses/X21-09.ron", &first)
        .file("crosses/X23-01.ron", &second);
    let told = story.ask("variation X21-09 X23-01");
    assert_snapshot!(told);
    // A primary hybrid varies by 0.5, an F2 by 4.5 (Lo, Fernando & Grossman 1993, V = 1, S = 4): three times as much were all
    // of it inherited. At heritability 0.4 the rest is 0.6/0.4 = 1.5 in both: √(6/2) = 1.73.
    assert!(told.contains("expected from ancestry 1.73"), "{told}");
    let all = story.ask("variation X21-09 X23-01 --heritability 1");
    assert!(all.contains("expected from ancestry 3.00"), "{all}");
    assert!(
        story
            .ask("variation X21-09 X23-01 -o spread.png")
            .contains("wrote")
    );
}
