//! Reads `docs/checks.md`: the codes, and under each a tiny registry and the finding it provokes.

use std::fmt::Write;

/// One code's part of the page.
#[derive(Debug)]
pub struct Entry {
    /// The code in the heading.
    pub code: String,
    /// Files of its tiny registry, by path; empty when the page shows none.
    pub files: Vec<(String, String)>,
    /// The finding as drawn on the page; `None` when the page draws none.
    pub drawn: Option<Drawn>,
}

/// A drawn finding, and the lines of the page it stands in.
#[derive(Debug)]
pub struct Drawn {
    /// The drawing.
    pub text: String,
    /// The first line after the opening fence, counted from 0, and the line of the closing fence.
    pub lines: (usize, usize),
}

/// The page.
pub struct Page {
    /// Its lines.
    lines: Vec<String>,
    /// The files every tiny registry has, unless it brings its own.
    pub common: Vec<(String, String)>,
    /// The codes in order.
    pub entries: Vec<Entry>,
}

impl Page {
    /// Reads the page: `### ` and a code in backticks begins an entry, a fence ```` ```ron PATH ```` a file, a fence
    /// ```` ```text ```` the drawing. Files before the first entry are common to all.
    pub fn read(text: &str) -> Page {
        let lines: Vec<String> = text.lines().map(str::to_owned).collect();
        let mut page = Page {
            lines: Vec::new(),
            common: Vec::new(),
            entries: Vec::new(),
        };
        let mut at = 0;
        while at < lines.len() {
            let line = &lines[at];
            if let Some(code) = line.strip_prefix("### `") {
                page.entries.push(Entry {
                    code: code.trim_end_matches('`').to_owned(),
                    files: Vec::new(),
                    drawn: None,
                });
            } else if let Some(kind) = line.strip_prefix("```") {
                let past = (at + 1..lines.len())
                    .find(|&end| lines[end] == "```")
                    .expect("every fence is closed");
                page.block(kind, &lines, (at + 1, past));
                at = past;
            }
            at += 1;
        }
        page.lines = lines;
        page
    }

    fn block(&mut self, kind: &str, lines: &[String], (first, past): (usize, usize)) {
        let mut text = String::new();
        for line in &lines[first..past] {
            writeln!(text, "{line}").expect("a text can be written to");
        }
        let entry = self.entries.last_mut();
        match (kind.split_once(' '), entry) {
            (Some(("ron", path)), None) => self.common.push((path.to_owned(), text)),
            (Some(("ron", path)), Some(entry)) => entry.files.push((path.to_owned(), text)),
            (None, Some(entry)) if kind == "text" => {
                assert!(entry.drawn.is_none(), "`{}` draws twice", entry.code);
                let lines = (first, past);
                entry.drawn = Some(Drawn { text, lines });
            }
            _ => {}
        }
    }

    /// The files of an entry's tiny registry: the common ones, with its own added or in their place.
    pub fn registry_of(&self, entry: &Entry) -> Vec<(String, String)> {
        let own = |path: &str| entry.files.iter().any(|(own, _)| own == path);
        let common = self.common.iter().filter(|(path, _)| !own(path));
        let mut files: Vec<_> = common.chain(&entry.files).cloned().collect();
        files.sort();
        files
    }

    /// The page with other drawings in the place of those on it.
    pub fn redrawn(&self, drawings: &[(usize, String)]) -> String {
        let mut lines = self.lines.clone();
        let mut last_first: Vec<_> = drawings.iter().collect();
        last_first.sort_by_key(|(entry, _)| std::cmp::Reverse(*entry));
        for (entry, text) in last_first {
            if let Some(drawn) = &self.entries[*entry].drawn {
                let (first, past) = drawn.lines;
                lines.splice(first..past, text.lines().map(str::to_owned));
            }
        }
        lines.join("\n") + "\n"
    }
}
