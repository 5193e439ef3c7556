//! Options and numbers that were not understood: what was found, what was needed.

use crate::demo::demo;
use insta::assert_snapshot;

#[test]
fn numbers_that_cannot_be() {
    assert_snapshot!(demo("grade X22-02.S1 --at abc"));
    assert_snapshot!(demo("select X22-02 --weigh span=1 --keep -1"));
    assert_snapshot!(demo("plan --pots -3"));
    assert_snapshot!(demo("plan --pots 99999999999"));
    assert_snapshot!(demo("plan --pots many"));
}

/// A number below zero reaches the verb, which knows why it cannot be.
#[test]
fn an_age_below_zero() {
    assert_snapshot!(demo("grade X22-02.S1 --at -3"));
}

#[test]
fn options_that_are_not_there() {
    assert_snapshot!(demo("pair X18-01-4 Spa1 -o pair.svg"));
    assert_snapshot!(demo("grade X22-02.S1 --off span"));
    assert_snapshot!(demo("siblings X22-02 --traits span"));
}

#[test]
fn a_pod_or_sowing_that_is_not_there_is_answered_with_those_that_are() {
    assert_snapshot!(demo("siblings X18-01.P9"));
    assert_snapshot!(demo("grade X22-02.S9"));
}
