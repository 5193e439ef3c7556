//! `docs/first-hour.md` can be followed word by word.

use crate::run::{as_it_runs, hold};

const PAGE: &str = include_str!("../../docs/first-hour.md");

#[test]
fn the_first_hour_is_true() {
    hold("first-hour.md", PAGE);
}

#[test]
fn a_page_that_lies_would_be_told() {
    let scratch = tempfile::tempdir().expect("a scratch folder");
    let page = "```console\n$ podbook new here\nnothing happened\n```\n";
    let truth = as_it_runs(page, scratch.path());
    assert_ne!(truth, page);
    assert!(truth.contains("registry.ron"), "{truth}");
}
