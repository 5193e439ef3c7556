//! `docs/names.md` is true: its commands print what it shows, its tables hold every code.

use crate::run::as_it_runs;
use podbook::naming::{NoteCode, RefusalCode, Rule};
use std::path::Path;

const PAGE: &str = include_str!("../../docs/names.md");

/// The page with both tables written anew.
fn with_tables(page: &str) -> String {
    let notes: Vec<(&str, &str)> = NoteCode::ALL
        .iter()
        .map(|code| (code.code(), code.meaning()))
        .collect();
    let refusals: Vec<(&str, &str)> = RefusalCode::ALL
        .iter()
        .map(|code| (code.code(), code.meaning()))
        .collect();
    let rules: Vec<(&str, &str)> = Rule::ALL
        .iter()
        .map(|rule| (rule.code(), rule.meaning()))
        .collect();
    let page = with_table(page, "notes", &notes);
    let page = with_table(&page, "rules", &rules);
    with_table(&page, "refusals", &refusals)
}

fn with_table(page: &str, name: &str, rows: &[(&str, &str)]) -> String {
    let mark = format!("<!-- {name} -->\n");
    let (head, rest) = page.split_once(&mark).expect("the page marks its tables");
    let tail = rest.find("\n## ").map_or("", |at| &rest[at..]);
    let rows: String = rows
        .iter()
        .map(|(code, meaning)| format!("| `{code}` | {meaning} |\n"))
        .collect();
    format!("{head}{mark}\n| code | meaning |\n|---|---|\n{rows}{tail}")
}

#[test]
fn the_page_of_names_is_true() {
    let scratch = tempfile::tempdir().expect("a scratch folder");
    let truth = with_tables(&as_it_runs(PAGE, scratch.path()));
    if truth != PAGE {
        let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("names.md");
        std::fs::write(&path, &truth).expect("the page can be written");
        panic!(
            "docs/names.md is not true; the page as it should read lies in {}",
            path.display()
        );
    }
}
