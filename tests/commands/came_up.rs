//! When a seedling came up, as `show` dates it from the counts of its sowing.

use crate::bench_top::BenchTop;
use crate::demo::{ask, copied};

const FIRST: &str = "germinated: [(on: \"2022-10-29\", count: 11)";

fn history(top: &BenchTop) -> String {
    let run = ask(top.path(), "show X22-02-5");
    run.stdout.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Eleven were up at the first count: they came up at any time since they were sown on 2022-09-10.
#[test]
fn what_was_up_at_the_first_count_came_up_before_it() {
    let history = history(&copied());
    let words = "germinated 2022-09-10 to 2023-01-14 after 0–126 days";
    assert!(history.contains(words), "{history}");
}

#[test]
fn a_count_of_none_is_the_earliest_day() {
    let counted = FIRST.replace("count: 11", "count: 0");
    let history = history(&copied().change("crosses/X22-02.ron", FIRST, &counted));
    let words = "germinated 2022-10-29 to 2023-01-14 after 49–126 days";
    assert!(history.contains(words), "{history}");
}
