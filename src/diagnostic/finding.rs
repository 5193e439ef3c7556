//! One finding: plain values, built step by step.
//!
//! The fields are public so that a report can carry them as they are. Drawing is left to `draw`.

use std::fmt;

use crate::text::Span;

/// Most bytes of one text of a finding: a code of ten million letters is not shown three times over.
const LONGEST: usize = 2000;

/// A text, cut in its middle when no person would read it to its end.
fn short(text: String) -> String {
    if text.len() <= LONGEST {
        return text;
    }
    let first = text.floor_char_boundary(LONGEST / 2);
    let last = text.ceil_char_boundary(text.len() - LONGEST / 4);
    let left_out = text[first..last].chars().count();
    format!(
        "{} … {left_out} characters more … {}",
        &text[..first],
        &text[last..]
    )
}

/// How grave a finding is; the gravest is the greatest.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum Severity {
    /// Worth knowing; nothing is left out because of it.
    Note,
    /// Probably a mistake; the record is used as written.
    Warning,
    /// It cannot be true as it stands; a record that cannot be read or placed is left out.
    Fault,
}

impl Severity {
    /// The word in lower case.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Note => "note",
            Severity::Warning => "warning",
            Severity::Fault => "fault",
        }
    }
}

/// The lasting name of a kind of finding, in kebab case, such as `unknown-parent`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub struct Code(pub &'static str);

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

/// What is wrong, where, what was found, what was needed, what to do.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Finding {
    /// The kind.
    pub code: Code,
    /// How grave.
    pub severity: Severity,
    /// Where; `None` when no text could be read or the matter has no single place.
    pub place: Option<Span>,
    /// One line that says what is wrong.
    pub title: String,
    /// What was found; empty when the title says it all.
    pub found: String,
    /// What was needed instead; empty when nothing is.
    pub needed: String,
    /// What to do, each a sentence.
    pub help: Vec<String>,
    /// Other places that bear on it, each with a remark.
    pub related: Vec<(Span, String)>,
}

impl Finding {
    /// A finding of a given severity.
    pub fn new(severity: Severity, code: Code, title: impl Into<String>) -> Self {
        Self {
            code,
            severity,
            place: None,
            title: short(title.into()),
            found: String::new(),
            needed: String::new(),
            help: Vec::new(),
            related: Vec::new(),
        }
    }

    /// A fault: it cannot be true as it stands.
    pub fn fault(code: Code, title: impl Into<String>) -> Self {
        Self::new(Severity::Fault, code, title)
    }

    /// A warning: probably a mistake.
    pub fn warning(code: Code, title: impl Into<String>) -> Self {
        Self::new(Severity::Warning, code, title)
    }

    /// A note: worth knowing.
    pub fn note(code: Code, title: impl Into<String>) -> Self {
        Self::new(Severity::Note, code, title)
    }

    /// Says where.
    pub fn at(mut self, place: impl Into<Option<Span>>) -> Self {
        self.place = place.into();
        self
    }

    /// Says what was found.
    pub fn found(mut self, found: impl Into<String>) -> Self {
        self.found = short(found.into());
        self
    }

    /// Says what was needed.
    pub fn needed(mut self, needed: impl Into<String>) -> Self {
        self.needed = short(needed.into());
        self
    }

    /// Adds a line of help.
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help.push(short(help.into()));
        self
    }

    /// Adds "did you mean" with up to three names; nothing when there is none.
    pub fn did_you_mean<T: AsRef<str>>(self, names: impl IntoIterator<Item = T>) -> Self {
        let names: Vec<_> = names
            .into_iter()
            .take(3)
            .map(|name| format!("`{}`", name.as_ref()))
            .collect();
        match names.as_slice() {
            [] => self,
            [only] => self.help(format!("did you mean {only}?")),
            [some @ .., last] => self.help(format!("did you mean {} or {last}?", some.join(", "))),
        }
    }

    /// Adds another place that bears on it.
    pub fn related(mut self, place: Span, remark: impl Into<String>) -> Self {
        self.related.push((place, remark.into()));
        self
    }
}
