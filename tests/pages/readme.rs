//! The README is true: its command prints what it shows, its ten lines are a page, its links lead somewhere.

use crate::run::hold_in;
use podbook::record::{CrossPage, read_page};
use podbook::text::Sources;
use std::path::Path;

const README: &str = include_str!("../../README.md");

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

#[test]
fn the_readme_is_true() {
    hold_in("README.md", README, root());
}

/// A newcomer reads it to the end.
#[test]
fn the_readme_is_short() {
    let lines = README.lines().count();
    assert!(lines <= 120, "{lines} lines");
}

#[test]
fn the_ten_lines_are_a_page() {
    let ron = README
        .split("```ron\n")
        .nth(1)
        .and_then(|rest| rest.split("```").next());
    let ron = ron.expect("the README shows a page");
    let mut sources = Sources::new();
    let file = sources.add("crosses/X.ron", ron);
    let (page, findings) = read_page::<CrossPage>(&sources, file);
    assert!(page.is_some() && findings.is_empty(), "{findings:?}");
    assert_eq!(ron.lines().count(), 10);
}

#[test]
fn links_lead_to_files() {
    for page in ["README.md", "DEVELOPERS.md"] {
        let text = std::fs::read_to_string(root().join(page)).expect("the page is there");
        let targets = text
            .split("](")
            .skip(1)
            .filter_map(|rest| rest.split(')').next());
        for target in targets.filter(|target| !target.starts_with("http")) {
            let path = target.split('#').next().unwrap_or(target);
            assert!(
                root().join(path).exists(),
                "{page} links to {target}, which is not there"
            );
        }
    }
}

/// Verbs the README names exist, each with a help page that holds an example.
#[test]
fn every_verb_has_an_example() {
    let command = podbook::cli::command();
    for verb in command.get_subcommands() {
        let help = verb
            .get_after_help()
            .map(ToString::to_string)
            .unwrap_or_default();
        assert!(
            help.contains("Example"),
            "{} has no example",
            verb.get_name()
        );
    }
    for line in README
        .lines()
        .filter(|line| line.starts_with("| ") && line.contains("`podbook "))
    {
        for typed in line.split("`podbook ").skip(1) {
            let verb = typed.split([' ', '`']).next().unwrap_or_default();
            assert!(
                command.find_subcommand(verb).is_some(),
                "the README names `podbook {verb}`"
            );
        }
    }
}
