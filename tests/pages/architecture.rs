//! `docs/architecture.md` names paths and functions that exist, and the floors that `tests/floors.rs` holds.

use std::path::{Path, PathBuf};

const PAGE: &str = include_str!("../../docs/architecture.md");
const FLOORS: &str = include_str!("../floors.rs");

/// Beginnings of what is a path in this project.
const FOLDERS: [&str; 4] = ["src/", "tests/", "docs/", "registry-demo/"];

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The page without its fenced drawings.
fn prose(page: &str) -> String {
    let parts = page.split("```").step_by(2);
    parts.collect::<Vec<_>>().join("\n")
}

/// What stands between backticks, in order.
fn spans(page: &str) -> Vec<String> {
    let page = prose(page);
    page.split('`')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect()
}

/// Whether a text of Rust defines a function of this name.
fn defines(source: &str, name: &str) -> bool {
    let start = format!("fn {name}");
    let mut found = source.split(&start).skip(1);
    found.any(|after| after.starts_with(['(', '<']))
}

/// What of a page is not so: paths that are not there, functions that are not in the file named before them.
fn untrue(page: &str, root: &Path) -> (usize, usize, Vec<String>) {
    let (mut paths, mut functions, mut told) = (0, 0, Vec::new());
    let mut file = None;
    for span in spans(page) {
        if FOLDERS.iter().any(|folder| span.starts_with(folder)) {
            paths += 1;
            let path = root.join(&span);
            if !path.exists() {
                told.push(format!("there is no {span}"));
            }
            file = Some(path);
        } else if let Some(name) = span.strip_suffix("()") {
            functions += 1;
            let source = file
                .as_ref()
                .and_then(|file| std::fs::read_to_string(file).ok());
            if !source.is_some_and(|source| defines(&source, name)) {
                told.push(format!("{name}() is not in {file:?}"));
            }
        }
    }
    (paths, functions, told)
}

#[test]
fn every_path_and_function_named_is_there() {
    let (paths, functions, told) = untrue(PAGE, &root());
    assert!(told.is_empty(), "{told:#?}");
    assert!(paths > 40 && functions > 20, "{paths} {functions}");
}

#[test]
fn a_path_or_function_that_is_not_there_is_seen() {
    let root = root();
    for (page, word) in [
        ("`src/record/nowhere.rs`", "nowhere"),
        ("`src/record/read.rs` `read_pages()`", "read_pages"),
        ("`src/record/read.rs` `read()`", "read()"),
        ("`read_page()`", "read_page"),
        ("```\ncode\n```\n`src/lost/`", "lost"),
    ] {
        let (.., told) = untrue(page, &root);
        assert!(
            told.len() == 1 && told[0].contains(word),
            "{page}: {told:?}"
        );
    }
    let (.., told) = untrue(
        "`src/record/read.rs` `read_page()`, `src/record/` `Said`",
        &root,
    );
    assert_eq!(told, Vec::<String>::new());
}

/// The rows of the table of floors on the page: the number, then the modules.
fn floors_on(page: &str) -> Vec<(usize, Vec<String>)> {
    let rows = page.lines().filter_map(|line| {
        let cells: Vec<&str> = line.strip_prefix("| ")?.split(" | ").collect();
        let number = cells.first()?.trim().parse().ok()?;
        Some((number, spans(cells.get(1)?)))
    });
    rows.collect()
}

/// The floors as the test of the floors has them.
fn floors_tested(source: &str) -> Vec<(usize, Vec<String>)> {
    let start = source.find("const FLOORS").expect("the floors");
    let rows = source[start..].split("&[").skip(2);
    let mut floors = Vec::new();
    for row in rows {
        let (inside, after) = row.split_once(']').expect("a row ends");
        let modules = inside.split('"').skip(1).step_by(2);
        floors.push((floors.len(), modules.map(str::to_owned).collect()));
        if after.trim_start_matches([',', ' ', '\n']).starts_with(']') {
            break;
        }
    }
    floors
}

#[test]
fn the_table_of_floors_is_the_one_that_is_tested() {
    let tested = floors_tested(FLOORS);
    assert!(tested.len() > 10);
    assert_eq!(tested[0].1[0], "text");
    assert_eq!(floors_on(PAGE), tested);
}
