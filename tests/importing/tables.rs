//! Tables sorted out and brought in without a disk.

use podbook::analysis::import::{Import, InputTable, import};
use podbook::check;
use podbook::diagnostic::Severity;
use podbook::record::{Day, ImportChoices, RowClass};
use podbook::recording::draft::{Draft, PageChange};
use podbook::recording::import::bring_in;
use podbook::registry::{STARTER, build};
use podbook::text::{GridRow, Sources};
use std::collections::BTreeMap;

/// The day that counts as today.
pub fn today() -> Day {
    Day::new(2025, 6, 1).expect("a day")
}

/// A new registry, and pages put in the place of its own.
pub fn pages_with(changes: &[PageChange]) -> BTreeMap<String, String> {
    let files = STARTER.iter().filter(|file| file.path.ends_with(".ron"));
    let mut pages: BTreeMap<String, String> = files
        .map(|file| (file.path.to_owned(), file.text.to_owned()))
        .collect();
    for change in changes {
        pages.insert(change.path.clone(), change.now.clone().expect("a page"));
    }
    pages
}

/// Pages as sources.
pub fn sources(pages: &BTreeMap<String, String>) -> Sources {
    let mut sources = Sources::new();
    for (path, text) in pages {
        sources.add(path.as_str(), text.as_str());
    }
    sources
}

/// A table of words: one line a row, cells between strokes; blank lines count as rows of the file and hold nothing.
pub fn table(name: &str, lines: &[&str]) -> InputTable {
    let row = |(at, line): (usize, &&str)| GridRow {
        line: at + 1,
        cells: line.split('|').map(|cell| cell.trim().to_owned()).collect(),
    };
    let rows = lines.iter().enumerate().map(row);
    InputTable {
        name: name.to_owned(),
        rows: rows
            .filter(|row| row.cells.iter().any(|cell| !cell.is_empty()))
            .collect(),
        ..InputTable::default()
    }
}

/// Tables sorted out for a new registry.
pub fn sorted(tables: &[InputTable]) -> Import {
    chosen(tables, "()")
}

/// The same with choices.
pub fn chosen(tables: &[InputTable], choices: &str) -> Import {
    let choices = ImportChoices::read(choices).expect("choices");
    let sources = sources(&pages_with(&[]));
    import(&build(&sources).0, tables, &choices, today())
}

/// The pages a new registry gets.
pub fn brought(tables: &[InputTable], choices: &str) -> Vec<PageChange> {
    let choices = ImportChoices::read(choices).expect("choices");
    let sources = sources(&pages_with(&[]));
    let (registry, _) = build(&sources);
    let sorted = import(&registry, tables, &choices, today());
    let mut draft = Draft::new(&registry, today());
    bring_in(&sorted, &mut draft).expect("it comes in");
    draft.changes()
}

/// The text of a page that was changed.
pub fn page<'c>(changes: &'c [PageChange], path: &str) -> &'c str {
    let change = changes.iter().find(|change| change.path == path);
    let change = change.unwrap_or_else(|| panic!("{path} is not among {changes:?}"));
    change.now.as_deref().expect("a page")
}

/// Faults of a new registry with these pages, in words.
pub fn faults(changes: &[PageChange]) -> Vec<String> {
    let sources = sources(&pages_with(changes));
    let (registry, mut findings) = build(&sources);
    findings.append(check::all(&registry, today()));
    let faults = findings
        .iter()
        .filter(|finding| finding.severity == Severity::Fault);
    faults
        .map(|finding| format!("{}: {}", finding.title, finding.found))
        .collect()
}

/// Rows by class.
pub fn classes(import: &Import) -> BTreeMap<&'static str, usize> {
    let counts = RowClass::ALL
        .iter()
        .map(|class| (class.word(), import.count(*class)));
    counts.filter(|(_, count)| *count > 0).collect()
}

/// Every row is a heading or in one class.
pub fn assert_adds_up(import: &Import) {
    let counted: usize = RowClass::ALL.iter().map(|class| import.count(*class)).sum();
    assert_eq!(counted, import.rows.len());
    assert_eq!(counted + import.headings(), import.lines());
}
