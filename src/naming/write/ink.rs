//! The style of a text and the length it may have.

use std::fmt;

use crate::naming::formula::Formula;
use crate::naming::vocabulary::Vocabulary;
use crate::text::{Markdown, Xml, one_line};
use crate::wording::{Name, NameRun};

use super::ascii::ascii;

/// More characters than any formula on paper; beyond it a text is refused, never cut.
const LONGEST: usize = 4_000_000;

/// What a text is for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Style {
    /// Plain text with ×, ♀ and ♂.
    #[default]
    Text,
    /// Plain text in ASCII throughout: ` x `, `(f)`, `(m)`, labels and epithets without accents.
    Ascii,
    /// HTML, Latin in `<i>`, everything escaped.
    Html,
    /// Markdown, Latin between stars, everything escaped.
    Markdown,
    /// For pictures: Latin between U+0002 and U+0003, which no other text can hold; see [`runs`].
    Runs,
}

impl Style {
    /// A text of the registry as it may stand in a text of this style: as it is where there is no markup, so that data
    /// stay as recorded, in ASCII where that is asked for, and escaped where there is markup.
    pub fn written(self, text: &str) -> String {
        match self {
            Style::Text | Style::Runs => text.to_owned(),
            Style::Ascii => ascii(text),
            Style::Html => Xml::of(text).to_string(),
            Style::Markdown => Markdown::of(text).to_string(),
        }
    }
}

/// How a formula is written.
#[derive(Clone, Copy, Debug)]
pub struct Writing<'v> {
    /// The words it is written with; the genus is taken from here.
    pub vocabulary: &'v Vocabulary,
    /// What the text is for.
    pub style: Style,
    /// Mark every cross of known direction with ♀ and ♂.
    pub sexes: bool,
}

impl<'v> Writing<'v> {
    /// Plain text.
    pub fn plain(vocabulary: &'v Vocabulary) -> Self {
        Self {
            vocabulary,
            style: Style::Text,
            sexes: false,
        }
    }

    /// For pictures and pages, which set Latin in italics: see [`runs`].
    pub fn in_runs(vocabulary: &'v Vocabulary) -> Self {
        Self {
            style: Style::Runs,
            ..Self::plain(vocabulary)
        }
    }
}

/// A formula too long to be written out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TooLong {
    /// How many crosses lie one above the other.
    pub generations: usize,
}

impl TooLong {
    pub(super) fn of(formula: &Formula) -> Self {
        Self {
            generations: formula.generations(),
        }
    }
}

impl fmt::Display for TooLong {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let generations = self.generations;
        write!(
            out,
            "the formula goes on for {generations} generations and takes more than {LONGEST} characters written out; ask for fewer generations"
        )
    }
}

impl std::error::Error for TooLong {}

/// Cuts a text of [`Style::Runs`] into stretches, Latin in italics.
pub fn runs(text: &str) -> Name {
    let mut stretches = Name::new();
    for piece in text.split_inclusive(['\u{2}', '\u{3}']) {
        let plain = piece.trim_end_matches(['\u{2}', '\u{3}']);
        if !plain.is_empty() {
            stretches.push(NameRun {
                text: plain.to_owned(),
                italic: piece.ends_with('\u{3}'),
            });
        }
    }
    stretches
}

/// A text in the making.
pub(super) struct Ink {
    pub text: String,
    style: Style,
}

impl Ink {
    pub fn new(style: Style) -> Self {
        Self {
            text: String::new(),
            style,
        }
    }

    /// Whether the text has outgrown what is written out.
    pub fn overflows(&self) -> bool {
        self.text.len() > LONGEST
    }

    /// Genus or epithet.
    pub fn latin(&mut self, name: &str) {
        let (open, close) = match self.style {
            Style::Html => ("<i>", "</i>"),
            Style::Markdown => ("*", "*"),
            Style::Runs => ("\u{2}", "\u{3}"),
            Style::Text | Style::Ascii => ("", ""),
        };
        self.text.push_str(open);
        self.roman(name);
        self.text.push_str(close);
    }

    /// Anything else.
    pub fn roman(&mut self, text: &str) {
        self.text.push_str(&match self.style {
            Style::Text | Style::Runs => one_line(text),
            Style::Ascii => one_line(&self.style.written(text)).into_owned().into(),
            Style::Html | Style::Markdown => self.style.written(text).into(),
        });
    }

    /// The sign between two parents.
    pub fn cross(&mut self) {
        self.sign(" x ", " × ");
    }

    /// The sign of a named hybrid, before its epithet.
    pub fn name_sign(&mut self) {
        self.sign("x ", "×");
    }

    /// ♀, before a parent.
    pub fn female(&mut self) {
        self.sign("(f) ", "♀ ");
    }

    /// ♂, before a parent.
    pub fn male(&mut self) {
        self.sign("(m) ", "♂ ");
    }

    fn sign(&mut self, ascii: &str, sign: &str) {
        let is_ascii = self.style == Style::Ascii;
        self.text.push_str(if is_ascii { ascii } else { sign });
    }
}
