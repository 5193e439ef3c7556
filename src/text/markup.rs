//! Text inside XML, HTML and Markdown: the one place that escapes it.

use std::fmt;

use super::shown::one_line;

/// Text inside an element or an attribute of XML, SVG or HTML: one line, every mark of the language written out, and no
/// character XML forbids (XML 1.0, section 2.2), since those are shown as signs.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Xml(String);

/// Text inside a paragraph of Markdown (CommonMark 0.31), where raw HTML would pass: `<`, `>` and `&` stand as entities,
/// which every kind of Markdown knows, and marks of emphasis, links, code, tables and autolinks behind a backslash.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Markdown(String);

impl Xml {
    /// Escapes a text.
    pub fn of(text: &str) -> Self {
        let text = one_line(text);
        let mut out = String::with_capacity(text.len());
        for letter in text.chars() {
            match entity(letter) {
                Some(entity) => out.push_str(entity),
                None => out.push(letter),
            }
        }
        Self(out)
    }
}

/// How a mark of the language is written as text. An apostrophe by its number, which HTML 4 knows too.
fn entity(letter: char) -> Option<&'static str> {
    Some(match letter {
        '&' => "&amp;",
        '<' => "&lt;",
        '>' => "&gt;",
        '"' => "&quot;",
        '\'' => "&#39;",
        _ => return None,
    })
}

impl Markdown {
    /// Escapes a text.
    pub fn of(text: &str) -> Self {
        let text = one_line(text);
        let mut out = String::with_capacity(text.len());
        for (at, letter) in text.char_indices() {
            let rest = &text[at..];
            // Some kinds of Markdown make links of these by themselves.
            let links = rest.starts_with("://") || (letter == '.' && ends_in_www(&text[..at]));
            match letter {
                '<' | '>' | '&' => out.extend(entity(letter)),
                letter if links || r"\`*_[]|~#!{}$".contains(letter) => out.extend(['\\', letter]),
                letter => out.push(letter),
            }
        }
        Self(out)
    }
}

fn ends_in_www(text: &str) -> bool {
    let end = text
        .len()
        .checked_sub(3)
        .and_then(|start| text.get(start..));
    end.is_some_and(|end| end.eq_ignore_ascii_case("www"))
}

impl fmt::Display for Xml {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}

impl fmt::Display for Markdown {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.0)
    }
}
