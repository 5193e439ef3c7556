//! Comments inside a value that gives way to another or is taken out: they stay, in its place.

use std::ops::Range;

use crate::text::outline::{Kind, Outline};

impl Outline<'_> {
    /// The comments in a range of a sound text, in their order: each with a blank before it, one that runs to the end of
    /// its line with that line's break and indentation after it.
    pub(super) fn comments_in(&self, range: Range<u32>) -> String {
        let mut found = String::new();
        let mut at = range.start as usize;
        let end = range.end as usize;
        while at < end {
            let rest = &self.text()[at..end];
            if let Some(past) = self.past_text(at) {
                at = past;
            } else if rest.starts_with("//") {
                let comment = rest.lines().next().unwrap_or(rest);
                let indent = self.indent_of_line(range.start);
                found.push_str(&format!(" {comment}{}{indent}", self.line_break()));
                at += comment.len();
            } else if rest.starts_with("/*") {
                let length = block(rest);
                found.push_str(&format!(" {}", &rest[..length]));
                at += length;
            } else {
                at += rest.chars().next().map_or(1, char::len_utf8);
            }
        }
        found
    }

    /// The remarks of a sound text, in their order.
    pub fn remarks(&self) -> Vec<String> {
        let text = self.text();
        let (mut found, mut at) = (Vec::new(), 0);
        while at < text.len() {
            let rest = &text[at..];
            let length = match (self.past_text(at), rest) {
                (Some(past), _) => past - at,
                _ if rest.starts_with("//") => rest.lines().next().unwrap_or(rest).len(),
                _ if rest.starts_with("/*") => block(rest),
                _ => {
                    at += rest.chars().next().map_or(1, char::len_utf8);
                    continue;
                }
            };
            if rest.starts_with('/') {
                found.push(rest[..length].trim_end().to_owned());
            }
            at += length;
        }
        found
    }

    /// Where a text in quotes that begins at a byte ends; `None` if none begins there.
    fn past_text(&self, at: usize) -> Option<usize> {
        let parts = self.parts();
        let first = parts.partition_point(|part| (part.start as usize) < at);
        let part = parts.get(first).filter(|part| part.start as usize == at)?;
        let quoted = matches!(part.kind, Kind::Text | Kind::Bytes | Kind::Char);
        quoted.then_some(part.end as usize)
    }
}

/// Length of the `/* … */` at the start of a text, others within it included.
fn block(text: &str) -> usize {
    let (mut depth, mut at) = (0, 0);
    let bytes = text.as_bytes();
    while at < bytes.len() {
        match (bytes[at], bytes.get(at + 1)) {
            (b'/', Some(b'*')) => (depth, at) = (depth + 1, at + 2),
            (b'*', Some(b'/')) => (depth, at) = (depth - 1, at + 2),
            _ => at += 1,
        }
        if depth == 0 {
            return at;
        }
    }
    bytes.len()
}
