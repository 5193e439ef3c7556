//! `podbook variation` over the demo: text, JSON and CSV.

use crate::demo::demo;
use insta::assert_snapshot;

#[test]
fn three_crosses_side_by_side() {
    assert_snapshot!(demo("variation X15-02 X18-01 X22-02"));
}

#[test]
fn the_answer_comes_as_json() {
    assert_snapshot!(demo("variation X15-02 X22-02 --json"));
}

#[test]
fn the_table_comes_as_csv() {
    assert_snapshot!(demo("variation X15-02 X22-02 --format csv"));
}

#[test]
fn steps_are_no_measure() {
    assert_snapshot!(demo("variation X15-02 X22-02 --trait banding"));
}
