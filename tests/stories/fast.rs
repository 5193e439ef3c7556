//! Who is fast among siblings? Twelve of X22-07, 20.0 months from sowing, one of them with mites.

use crate::story::Story;
use insta::assert_snapshot;

#[test]
fn the_sowing_is_sorted_into_thirds_with_ties() {
    let told = Story::named("fast").ask("grade X22-07.S1 --at 20");
    assert_snapshot!(told);
    for figure in [
        "n 11",
        "median 6.6",
        "mean 6.6",
        "SD 2.0",
        "2.9 times",
        "20.0 months",
    ] {
        assert!(told.contains(figure), "{figure} is missing");
    }
    let class_of = |number: usize| {
        let code = format!("X22-07-{number}");
        let line = told
            .lines()
            .find(|line| line.split_whitespace().nth(1) == Some(&code))
            .expect("a row for each plant");
        let word = ["fast", "medium", "slow"]
            .into_iter()
            .find(|word| line.contains(word));
        (word.expect("a class"), line.contains("tied with"))
    };
    for number in 1..=11 {
        let expected = match number {
            1..=4 => "fast",
            5..=7 => "medium",
            _ => "slow",
        };
        let tied = [4, 5, 6, 7, 8].contains(&number);
        assert_eq!(class_of(number), (expected, tied), "#{number}");
    }
    assert!(told.contains("X22-07-12: pests seen that day; not to be culled for its size"));
    assert!(
        told.contains("5 cm 2023-09-10"),
        "the potting date is shown"
    );
}

/// Independent of the program: growth of number 1 from 6.1 to 9.8 cm in 178 days is 8.4 % a month.
#[test]
fn growth_stands_where_two_dates_exist_and_nowhere_else() {
    let told = Story::named("fast").ask("grade X22-07.S1 --at 20");
    let row = |number: usize| {
        let code = format!("X22-07-{number} ");
        told.lines()
            .find(|line| line.contains(&code))
            .map(str::to_owned)
            .expect("a row")
    };
    let months = 178.0 / 30.4375;
    let rate = ((9.8f64 / 6.1).ln() / months).exp_m1() * 100.0;
    assert!(row(1).contains(&format!("+{rate:.1} %")), "{}", row(1));
    assert!(!row(3).contains('%'), "{}", row(3));
}

#[test]
fn an_age_nobody_read_is_refused_with_the_ages_there_are() {
    let told = Story::named("fast").ask("grade X22-07.S1 --at 8");
    assert!(told.starts_with("exit Some(2)"), "{told}");
    assert!(told.contains("14.1 months and 20.0 months"), "{told}");
}

#[test]
fn the_siblings_are_described_and_the_flagged_one_left_out() {
    let told = Story::named("fast").ask("siblings X22-07");
    assert_snapshot!(told);
    assert!(told.contains("left out: 1 reading flagged for pests"));
    // 21 of 60: Wilson 1927, limits by hand (35.0 ± 11.7 about 35.9 %).
    assert!(told.contains("35 % (24–48 %)"));
}

#[test]
fn a_ratio_is_tested_on_stated_classes() {
    let story = Story::named("fast");
    let told = story.ask("siblings X22-07 --trait banding --ratio 3:1 --class 1,2,3 --class 4,5");
    assert_snapshot!(told);
    // Ten read, eight against two, 7.5 to 2.5 expected: no outcome but 7:3 is likelier, and it is as near.
    assert!(told.contains("7.5"));
    let refused = story.ask("siblings X22-07 --trait banding --ratio 3:1");
    assert!(refused.contains("say what each part counts"), "{refused}");
}

#[test]
fn the_same_answers_come_as_tables_and_as_fields() {
    let story = Story::named("fast");
    assert_snapshot!(story.ask("grade X22-07.S1 --format csv"));
    assert_snapshot!(story.ask("siblings X22-07 --trait span --format json"));
    assert_snapshot!(story.ask("siblings X22-07 --trait span --format csv"));
}

#[test]
fn pictures_are_the_same_twice() {
    let story = Story::named("fast");
    for file in ["siblings.svg", "siblings.png"] {
        let told = story.ask(&format!("siblings X22-07 -o {file}"));
        assert!(told.contains(&format!("wrote {file}")), "{told}");
        let once = std::fs::read(story.path(file)).expect("a picture");
        story.ask(&format!("siblings X22-07 -o {file}"));
        assert!(once == std::fs::read(story.path(file)).expect("a picture"));
    }
}
