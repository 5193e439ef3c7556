//! Records as RON text, one record a line: what recording writes into pages.

use crate::text::visible_char;
use std::fmt::Write;
use unicode_normalization::char::is_combining_mark;

/// A record in the making: its fields in the order they are written.
#[derive(Clone, Debug, Default)]
pub struct RonRecord {
    fields: Vec<(&'static str, String)>,
}

impl RonRecord {
    /// A record without fields.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a field that holds words or a code.
    pub fn text(self, name: &'static str, words: &str) -> Self {
        self.value(name, text(words))
    }

    /// Adds a field that holds words, unless there are none.
    pub fn text_if(self, name: &'static str, words: Option<impl AsRef<str>>) -> Self {
        match words {
            Some(words) => self.text(name, words.as_ref()),
            None => self,
        }
    }

    /// Adds a field with a value that is RON already: a number, a word, a record, a list.
    pub fn value(mut self, name: &'static str, value: impl ToString) -> Self {
        self.fields.push((name, value.to_string()));
        self
    }

    /// Adds a field, unless there is no value.
    pub fn value_if(self, name: &'static str, value: Option<impl ToString>) -> Self {
        match value {
            Some(value) => self.value(name, value),
            None => self,
        }
    }

    /// The record as one line: `(code: "P1", zone: "A")`.
    pub fn line(&self) -> String {
        format!("({})", self.joined())
    }

    /// The record under a name: `died(on: "2024-05")`.
    pub fn named(&self, name: &str) -> String {
        format!("{name}({})", self.joined())
    }

    /// The fields with their values as RON.
    pub fn fields(&self) -> impl Iterator<Item = (&'static str, &str)> {
        self.fields
            .iter()
            .map(|(name, value)| (*name, value.as_str()))
    }

    /// Gives a field another value, or adds it.
    pub fn with(mut self, name: &'static str, value: String) -> Self {
        match self.fields.iter_mut().find(|(of, _)| *of == name) {
            Some(field) => field.1 = value,
            None => self.fields.push((name, value)),
        }
        self
    }

    fn joined(&self) -> String {
        let fields = self.fields.iter();
        let fields: Vec<String> = fields
            .map(|(name, value)| format!("{name}: {value}"))
            .collect();
        fields.join(", ")
    }

    /// The record as a whole page, one field a line.
    pub fn page(&self) -> String {
        let mut out = String::from("(\n");
        for (name, value) in &self.fields {
            let value = value.replace('\n', "\n    ");
            out.push_str(&format!("    {name}: {value},\n"));
        }
        out.push_str(")\n");
        out
    }
}

/// Words as a RON text in one line. A line break or tab is a blank, also one of an argument, which comes with its sign, and a
/// control is its sign. Joiners, marks of direction and the like belong to words of some scripts: they stay, as escapes that
/// can be seen in the file.
pub fn text(words: &str) -> String {
    let mut out = String::from("\"");
    let mut bears_a_mark = false;
    for c in words.chars() {
        let is_alone = is_combining_mark(c) && !bears_a_mark;
        match c {
            '"' | '\\' => out.extend(['\\', c]),
            '\n' | '\r' | '\t' | '␊' => out.push(' '),
            c if c.is_control() => out.push(visible_char(c)),
            c if is_alone || visible_char(c) != c => {
                let _ = write!(out, "\\u{{{:x}}}", u32::from(c));
            }
            c => out.push(c),
        }
        bears_a_mark = !c.is_whitespace() && visible_char(c) == c;
    }
    out.push('"');
    out
}

/// Texts as a list in one line.
pub fn texts<T: AsRef<str>>(words: impl IntoIterator<Item = T>) -> String {
    let words: Vec<String> = words.into_iter().map(|word| text(word.as_ref())).collect();
    format!("[{}]", words.join(", "))
}

/// Values as a list, one a line; a value that has lines of its own is indented with it.
pub fn lines(values: &[String]) -> String {
    let line = |value: &String| format!("    {},\n", value.replace('\n', "\n    "));
    let lines: Vec<String> = values.iter().map(line).collect();
    format!("[\n{}]", lines.concat())
}

/// A note with more words behind those that are there.
pub fn noted(before: Option<&str>, more: &str) -> String {
    match before {
        Some(before) => format!("{before}; {more}"),
        None => more.to_owned(),
    }
}

/// A count of a day as the files write it.
pub fn tally(on: &str, count: u32) -> String {
    RonRecord::new().text("on", on).value("count", count).line()
}
