//! `podbook grade` over the demo: text, JSON and CSV, and what cannot be sorted.

use crate::demo::demo;
use insta::assert_snapshot;

#[test]
fn a_sowing_in_thirds() {
    assert_snapshot!(demo("grade X22-02.S1 --at 20"));
}

#[test]
fn the_answer_comes_as_json() {
    assert_snapshot!(demo("grade X22-02.S2 --json"));
}

#[test]
fn the_table_comes_as_csv() {
    assert_snapshot!(demo("grade X22-02.S2 --format csv"));
}

#[test]
fn a_cross_sown_twice_is_refused() {
    assert_snapshot!(demo("grade X22-02"));
}

#[test]
fn an_age_nobody_read_is_refused() {
    assert_snapshot!(demo("grade X22-02.S1 --at 26"));
}
