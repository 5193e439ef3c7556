//! The pages, the demo and the files of a new registry keep to plain English: turns once rewritten do not come back.

use std::path::{Path, PathBuf};

/// Turns a native reader stumbles over, in small letters.
const TURNS: [&str; 29] = [
    "is told",
    "are told",
    "told as",
    "told one by one",
    "tells of",
    "tells the best",
    "lies in",
    "lie in",
    "rests on",
    "rest on",
    "stands for",
    "stands behind",
    "stand behind",
    "stands beside",
    "stand beside",
    "as they stand",
    "nobody",
    "somebody's word",
    "so much as",
    "not-knowing",
    "does not mind",
    "leaves zero out",
    "speaks of",
    "not obeyed",
    "no part of",
    "is no name",
    "unless said otherwise",
    "all the same",
    "outweigh",
];

/// Folders whose pages and records are read.
const FOLDERS: [&str; 4] = [
    "docs",
    "registry-demo",
    "registry-demo/crosses",
    "src/registry/starter",
];

/// History and decisions quote old wordings.
const QUOTING: [&str; 2] = ["changes.md", "decisions.md"];

#[test]
fn pages_use_plain_words() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut pages = vec![root.join("README.md"), root.join("DEVELOPERS.md")];
    for folder in FOLDERS {
        let texts = texts_in(&root.join(folder));
        assert!(!texts.is_empty(), "no page in {folder}");
        pages.extend(texts);
    }
    assert!(pages.len() > 12, "only {} pages found", pages.len());
    let found: Vec<String> = pages.iter().flat_map(|page| turns_in(page)).collect();
    assert!(found.is_empty(), "rewrite:\n{}", found.join("\n"));
}

/// Pages and records of one folder, in order of their names.
fn texts_in(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).expect("the folder is there");
    let mut texts: Vec<PathBuf> = entries
        .map(|entry| entry.expect("an entry can be read").path())
        .filter(|path| {
            path.extension()
                .is_some_and(|end| end == "md" || end == "ron" || end == "txt")
        })
        .filter(|path| !QUOTING.iter().any(|name| path.ends_with(name)))
        .collect();
    texts.sort();
    texts
}

/// Each turn outside code fences, with its place.
fn turns_in(page: &Path) -> Vec<String> {
    let text = std::fs::read_to_string(page).expect("the page can be read");
    let mut fenced = false;
    let mut found = Vec::new();
    for (number, line) in text.lines().enumerate() {
        if line.starts_with("```") {
            fenced = !fenced;
        } else if !fenced {
            let turns = TURNS.iter().filter(|turn| has_words(line, turn));
            found.extend(turns.map(|turn| format!("{}:{}: {turn}", page.display(), number + 1)));
        }
    }
    found
}

/// Whether a line holds these words whole: "families in" does not hold "lies in".
fn has_words(line: &str, words: &str) -> bool {
    let line = line.to_lowercase();
    line.match_indices(words).any(|(at, _)| {
        let before = line[..at].chars().next_back();
        let after = line[at + words.len()..].chars().next();
        !before.is_some_and(char::is_alphanumeric) && !after.is_some_and(char::is_alphanumeric)
    })
}
