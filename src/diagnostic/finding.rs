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

impl Code {
    /// Whether findings of this kind are about a name that no record has, which may be missing only because its own record
    /// could not be read.
    pub fn is_of_a_reference(self) -> bool {
        let of_its_own_place = ["unknown-field", "unknown-word", "unknown-unit"];
        self.0.starts_with("unknown-") && !of_its_own_place.contains(&self.0)
    }
}

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
    pub found: Box<str>,
    /// What was needed instead; empty when nothing is.
    pub needed: Box<str>,
    /// What to do, each a sentence.
    pub help: Vec<String>,
    /// Texts of which each may stand in place of what is underlined; each is printed in a line of help.
    pub offers: Box<[String]>,
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
            found: Box::default(),
            needed: Box::default(),
            help: Vec::new(),
            offers: Box::default(),
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

    /// The same under another code.
    pub fn renamed(mut self, code: Code) -> Self {
        self.code = code;
        self
    }

    /// Says where.
    pub fn at(mut self, place: impl Into<Option<Span>>) -> Self {
        self.place = place.into();
        self
    }

    /// Says what was found.
    pub fn found(mut self, found: impl Into<String>) -> Self {
        self.found = short(found.into()).into_boxed_str();
        self
    }

    /// Says what was needed.
    pub fn needed(mut self, needed: impl Into<String>) -> Self {
        self.needed = short(needed.into()).into_boxed_str();
        self
    }

    /// Adds a line of help.
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help.push(short(help.into()));
        self
    }

    /// Offers a text to write in place of what is underlined.
    pub fn write(self, text: impl Into<String>) -> Self {
        self.write_so(text, "")
    }

    /// Offers a text to write in place of what is underlined, with words that follow it in the line of help.
    pub fn write_so(mut self, text: impl Into<String>, words: &str) -> Self {
        let text = text.into();
        self.help.push(format!("write {text}{words}"));
        self.offer([text])
    }

    /// Adds texts that may stand in place of what is underlined; a line of help or of what is needed prints them.
    pub fn offer(mut self, texts: impl IntoIterator<Item = String>) -> Self {
        let mut offers = self.offers.into_vec();
        offers.extend(texts);
        self.offers = offers.into_boxed_slice();
        self
    }

    /// Offers up to three texts in place of what is underlined, as "did you mean"; nothing when there is none.
    pub fn did_you_mean<T: AsRef<str>>(mut self, names: impl IntoIterator<Item = T>) -> Self {
        let names: Vec<_> = names.into_iter().take(3).collect();
        let offered = names.iter().map(|name| name.as_ref().to_owned());
        self = self.offer(offered);
        let names: Vec<_> = names
            .iter()
            .map(|name| format!("`{}`", name.as_ref()))
            .collect();
        match names.as_slice() {
            [] => self,
            [only] => self.help(format!("did you mean {only}?")),
            [some @ .., last] => self.help(format!("did you mean {} or {last}?", some.join(", "))),
        }
    }

    /// Adds another place that bears on it, where it is known.
    pub fn related(mut self, place: impl Into<Option<Span>>, remark: impl Into<String>) -> Self {
        let place = place.into();
        self.related
            .extend(place.map(|place| (place, remark.into())));
        self
    }
}
