//! "Spring 2021": how old is it now, and how long did the pods take?

use crate::story::Story;
use insta::assert_snapshot;

#[test]
fn ages_are_ranges_and_the_hemisphere_is_said() {
    let told = Story::named("spring").ask("show X21-04-1");
    assert_snapshot!(told);
    for figure in [
        "2021-03-01 to 2021-05-31",
        "97–188 days",
        "26–56 days",
        "30.4–31.4 months",
        "\"spring 2021\" is read as in the northern hemisphere",
    ] {
        assert!(told.contains(figure), "{figure} is missing from\n{told}");
    }
}

#[test]
fn siblings_of_one_vague_sowing_are_compared_at_one_vague_age() {
    let told = Story::named("spring").ask("siblings X21-04");
    assert_snapshot!(told);
    assert!(told.contains("30.4–31.4 months from sowing"), "{told}");
}

/// In the southern hemisphere spring is September to November, which leaves the pods four days at most, where months
/// are common practice: the range tells it, though no two dates surely contradict each other.
#[test]
fn in_the_other_hemisphere_the_range_leaves_no_time_to_ripen() {
    let story = Story::named("spring");
    let south = story.text("registry.ron").replace("north", "south");
    let told = story.file("registry.ron", &south).ask("show X21-04-1");
    assert_snapshot!(told);
    assert!(told.contains("2021-09-01 to 2021-11-30"), "{told}");
    assert!(told.contains("0–4 days"), "{told}");
}
