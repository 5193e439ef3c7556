//! Every code of a finding: the page `docs/checks.md` names it, shows a tiny registry that provokes it, and the finding
//! as `podbook check` draws it.
//!
//! After a change that is meant, `PODBOOK_REDRAW=1 cargo test --test faults` writes the findings into the page anew.

mod awkward;
mod foreign;
mod judgement;
mod offers;
mod page;
mod plain_words;
mod slips;

use page::Page;
use podbook::check;
use podbook::diagnostic::{Drawing, Findings, Paint, Severity};
use podbook::record::{Hemisphere, When};
use podbook::registry::build;
use podbook::text::Sources;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// The day that counts as today on the page.
const TODAY: &str = "2024-06-01";

fn page_path() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/checks.md")
}

fn page() -> Page {
    let text = std::fs::read_to_string(page_path()).expect("docs/checks.md can be read");
    Page::read(&text)
}

/// Everything `podbook check` finds in files in memory.
pub fn found(files: &[(String, String)]) -> (Sources, Findings) {
    let mut sources = Sources::new();
    for (path, text) in files {
        sources.add(path.as_str(), text.as_str());
    }
    let today = When::read(TODAY, Hemisphere::North)
        .expect("the frozen day is a date")
        .first;
    let findings = {
        let (registry, mut findings) = build(&sources);
        let all = check::all(&registry, today);
        // What answers ask for that only count faults; advice is not sought for them.
        assert_eq!(check::faults(&registry, today), all.count(Severity::Fault));
        findings.append(all);
        findings
    };
    (sources, findings)
}

#[test]
fn each_tiny_registry_provokes_its_finding() {
    let page = page();
    let drawing = Drawing {
        width: 100,
        paint: Paint::Plain,
    };
    let mut drawings = Vec::new();
    let mut wrong = Vec::new();
    for (at, entry) in page.entries.iter().enumerate() {
        let Some(drawn) = &entry.drawn else { continue };
        let (sources, findings) = found(&page.registry_of(entry));
        let codes: BTreeSet<&str> = findings.iter().map(|finding| finding.code.0).collect();
        let text = drawing
            .findings_from(Severity::Note, &findings, &sources)
            .to_string();
        if codes != BTreeSet::from([entry.code.as_str()]) {
            wrong.push(format!("`{}` gives {codes:?}:\n{text}", entry.code));
        } else if text != drawn.text {
            wrong.push(format!("`{}` is drawn as\n{text}", entry.code));
        }
        drawings.push((at, text));
    }
    if std::env::var_os("PODBOOK_REDRAW").is_some() {
        std::fs::write(page_path(), page.redrawn(&drawings)).expect("the page can be written");
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Turns of findings that a native reader stumbled over, each rewritten once.
const NOT_SAID: [&str; 16] = [
    "this is no ",
    "belongs into",
    "belong into",
    "is mended",
    "somebody",
    "nobody",
    "is told",
    "tells",
    "lies in",
    "rests on",
    "stands for",
    "stands first",
    "said to be of",
    "taken for",
    "another ending",
    "come to its end",
];

/// No finding on the page says one of them.
#[test]
fn findings_use_plain_words() {
    let mut found = Vec::new();
    for entry in &page().entries {
        let Some(drawn) = &entry.drawn else { continue };
        let words: Vec<&str> = drawn.text.split_whitespace().collect();
        let text = format!("{} ", words.join(" "));
        let said = NOT_SAID.iter().filter(|turn| text.contains(*turn));
        found.extend(said.map(|turn| format!("{}: {turn}", entry.code)));
    }
    assert!(found.is_empty(), "{}", found.join("\n"));
}

#[test]
fn what_all_tiny_registries_share_is_sound() {
    let (sources, findings) = found(&page().common);
    let text = Drawing::default()
        .findings_from(Severity::Note, &findings, &sources)
        .to_string();
    assert!(findings.is_empty(), "{text}");
}

#[test]
fn the_page_names_every_code_once_and_no_other() {
    let page = page();
    let named: Vec<&str> = page
        .entries
        .iter()
        .map(|entry| entry.code.as_str())
        .collect();
    let on_page: BTreeSet<String> = named.iter().map(|&code| code.to_owned()).collect();
    assert_eq!(
        on_page.len(),
        named.len(),
        "a code stands on the page twice"
    );
    let in_source = codes_in(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"));
    let missing: Vec<_> = in_source.difference(&on_page).collect();
    let spare: Vec<_> = on_page.difference(&in_source).collect();
    assert!(
        missing.is_empty() && spare.is_empty(),
        "not on the page: {missing:?}; on the page only: {spare:?}"
    );
}

/// Files that keep codes apart from the word `Code`, in tables of their own.
const TABLES: [&str; 3] = [
    "diagnostic/shape.rs",
    "diagnostic/files.rs",
    "registry/lookup.rs",
];

/// Every code the program can give.
fn codes_in(folder: &Path) -> BTreeSet<String> {
    let mut codes = BTreeSet::new();
    let mut folders = vec![folder.to_path_buf()];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).expect("src can be listed") {
            let path = entry.expect("src can be listed").path();
            if path.is_dir() {
                folders.push(path);
                continue;
            }
            if path.extension().is_none_or(|ending| ending != "rs") {
                continue;
            }
            let text = std::fs::read_to_string(&path).expect("a source file can be read");
            let mut texts = text.split("Code(").skip(1).filter_map(first_text);
            codes.extend(texts.by_ref().map(str::to_owned));
            if TABLES.iter().any(|table| path.ends_with(table)) {
                let plain = text.replace("\\\"", "").replace("'\"'", "");
                let quoted = plain.split('"').skip(1).step_by(2);
                codes.extend(quoted.filter(|word| is_code(word)).map(str::to_owned));
            }
        }
    }
    codes.retain(|code| is_code(code));
    codes
}

/// The text that directly follows, blanks aside.
fn first_text(rest: &str) -> Option<&str> {
    let rest = rest.trim_start().strip_prefix('"')?;
    rest.split('"').next()
}

/// Words joined by hyphens, all in lower case.
fn is_code(word: &str) -> bool {
    word.contains('-')
        && word.split('-').all(|part| {
            !part.is_empty()
                && part
                    .bytes()
                    .all(|b| b.is_ascii_lowercase() || b.is_ascii_digit())
        })
        && word.starts_with(|c: char| c.is_ascii_lowercase())
}
