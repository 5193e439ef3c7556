//! Texts, bytes and characters: everything between quotation marks, closed or not.

use super::classes::{is_curly, is_quote, may_follow};
use super::parts::{FaultKind, Kind};
use super::scan::{Scanner, Token};

/// How far a mark that belongs to another is sought, bytes: a line may be as long as a file, and marks in it many.
const NEAR: usize = 200;

impl Scanner<'_> {
    /// A text whose opening quotation mark has been read.
    pub(super) fn quoted(&mut self, kind: Kind) -> Kind {
        let bytes = &self.text.as_bytes()[..self.limit()];
        let (mut at, mut fault) = (self.end, None);
        while let Some(&byte) = bytes.get(at) {
            match (byte, fault) {
                (b'"', _) if self.is_inch_mark(at) => {
                    (at, fault) = (at + 1, Some(FaultKind::InchMark));
                }
                (b'"', _) if self.past_quoted(at).is_some() => {
                    at = self.past_quoted(at).unwrap_or(at + 1);
                    fault = Some(FaultKind::InnerQuotes);
                }
                (b'"', Some(fault)) => {
                    self.end = at + 1;
                    self.fault(fault, self.start, self.end);
                    return kind;
                }
                (b'"', None) => return self.quoted_to(at, 1, kind),
                (b'\\', _) => at += 2,
                _ => at += 1,
            }
        }
        self.ran_out = true;
        self.unclosed_text();
        kind
    }

    /// Whether a quotation mark inside a text is an inch mark: it follows a number, and either the closing mark follows
    /// at once (`"1 1/8""`), or words do and a closing mark stands later in the line (`"4" pot"`). In a sound text the
    /// mark after a number closes it, and neither can follow.
    fn is_inch_mark(&self, quote: usize) -> bool {
        let from = self.text.ceil_char_boundary(quote.saturating_sub(NEAR));
        let before = self.text[from.max(self.end)..quote].trim_end();
        let is_number = |c: char| c.is_ascii_digit() || "½¼¾⅛⅜⅝⅞⅓⅔".contains(c);
        if !before.ends_with(is_number) || before.contains('\n') {
            return false;
        }
        let after = &self.text[quote + 1..];
        if let Some(rest) = after.strip_prefix('"') {
            return may_follow(rest);
        }
        let near = &after[..after.floor_char_boundary(NEAR)];
        let words = near.split('\n').next().unwrap_or_default();
        let Some((words, _)) = words.split_once('"') else {
            return false;
        };
        let rest = &after[words.len() + 1..];
        words
            .trim_start()
            .starts_with(|c: char| c.is_alphabetic() || c == '(')
            && !words.contains(':')
            && !rest.starts_with('"')
            && may_follow(rest)
    }

    /// The byte after words between quotation marks inside a text, as in `"Nep. "red" 4in"`, by the first of the marks. In
    /// a sound text that mark would be its end, and no letter would follow.
    fn past_quoted(&self, quote: usize) -> Option<usize> {
        let opens = self.text[self.end..quote].ends_with([' ', '(']) || quote == self.end;
        let after = &self.text[quote + 1..];
        if !opens || !after.starts_with(char::is_alphanumeric) {
            return None;
        }
        let near = &after[..after.floor_char_boundary(NEAR)];
        let (words, rest) = near.split('\n').next()?.split_once('"')?;
        let ends = |rest: &str| {
            rest.split_once('"')
                .is_some_and(|(_, after)| may_follow(after))
        };
        let is_inside = !words.ends_with(' ') && !words.contains(':') && !may_follow(rest);
        (is_inside && ends(rest)).then_some(quote + words.len() + 2)
    }

    /// Ends a text with the quotation mark at `quote` and the `marks - 1` bytes after, unless the layout speaks
    /// against it.
    fn quoted_to(&mut self, quote: usize, marks: usize, kind: Kind) -> Kind {
        let after = quote + marks;
        if self.by_layout
            && self.text[self.end..quote].contains('\n')
            && !may_follow(&self.text[after..])
        {
            self.unclosed_text();
            return kind;
        }
        // The token stands in the line where it starts; what follows stands in the line where it ends.
        self.end = after;
        kind
    }

    /// Ends an unclosed text with its line, without the commas and brackets that end it.
    fn unclosed_text(&mut self) {
        let line = &self.text[self.end..self.line_end()];
        let inside = line.trim_end().trim_end_matches([',', ')', ']', '}']);
        self.fault(FaultKind::UnclosedText, self.start, self.start + 1);
        self.end += inside.len();
    }

    /// A raw text whose `r` and first `#` or quotation mark is at `self.end`; `None` if it is none after all.
    pub(super) fn raw(&mut self, kind: Kind) -> Option<Kind> {
        let rest = &self.text[self.end..self.limit()];
        let hashes = rest.len() - rest.trim_start_matches('#').len();
        let inside = rest[hashes..].strip_prefix('"')?;
        let close = format!("\"{}", "#".repeat(hashes));
        self.end += hashes + 1;
        match inside.find(&close) {
            Some(length) => Some(self.quoted_to(self.end + length, close.len(), kind)),
            None => {
                self.ran_out = true;
                self.unclosed_text();
                Some(kind)
            }
        }
    }

    /// A character whose opening mark has been read.
    pub(super) fn character(&mut self) -> Option<Token> {
        let mut inside = self.rest().char_indices();
        let first = inside.next().map(|(_, first)| first);
        let close = match first {
            Some('\\') => inside
                .skip(1)
                .take(12)
                .find(|(_, c)| *c == '\'')
                .map(|(at, _)| at),
            Some(_) => inside.next().filter(|(_, c)| *c == '\'').map(|(at, _)| at),
            None => None,
        };
        let Some(close) = close else {
            return self.single_quoted();
        };
        self.end += close + 1;
        Some(Token::Leaf(Kind::Char))
    }

    /// A text between single quotation marks in one line, taken as one between double ones.
    fn single_quoted(&mut self) -> Option<Token> {
        let rest = self.rest();
        let near = &rest[..rest.floor_char_boundary(NEAR)];
        let line = near.split('\n').next().unwrap_or_default();
        let mut marks = line.match_indices('\'').map(|(at, _)| self.end + at + 1);
        let Some(after) = marks.find(|&after| may_follow(&self.text[after..])) else {
            self.fault(FaultKind::StrayCharacters, self.start, self.end);
            return None;
        };
        self.end = after;
        self.fault(FaultKind::SingleQuotes, self.start, self.end);
        Some(Token::Leaf(Kind::Text))
    }

    pub(super) fn is_prefixed(&self, prefix: &str) -> bool {
        let after = self
            .rest()
            .strip_prefix(prefix)
            .and_then(|rest| rest.bytes().next());
        match (prefix, after) {
            (_, Some(b'"')) => true,
            ("b", Some(b'\'')) => true,
            ("b", _) => false,
            (_, after) => after == Some(b'#'),
        }
    }

    /// A text after `b`, `r` or `br`; `None` (and nothing read) if it is none after all.
    pub(super) fn prefixed(&mut self, prefix: &str) -> Option<Kind> {
        let kind = if prefix == "r" {
            Kind::Text
        } else {
            Kind::Bytes
        };
        self.end += prefix.len();
        let read = match prefix {
            "b" if self.rest().starts_with('"') => {
                self.end += 1;
                Some(self.quoted(kind))
            }
            "b" => {
                self.end += 1;
                let faults = self.faults.len();
                let found = self.character().map(|_| kind);
                self.faults.truncate(faults);
                found
            }
            _ => self.raw(kind),
        };
        if read.is_none() {
            self.end = self.start;
        }
        read
    }

    /// A character that begins nothing: a typographic quotation mark is taken as an ordinary one, others are passed.
    pub(super) fn other_character(&mut self) -> Option<Token> {
        let rest = self.rest();
        let first = rest.chars().next()?;
        self.end += first.len_utf8();
        let inside = self.rest();
        let close = is_curly(first)
            .then(|| inside.find(|c| is_quote(c) || c == '\n'))
            .flatten();
        let mark = close
            .and_then(|close| inside[close..].chars().next())
            .filter(|mark| *mark != '\n');
        let (Some(close), Some(mark)) = (close, mark) else {
            self.fault(FaultKind::StrayCharacters, self.start, self.end);
            return None;
        };
        self.end += close + mark.len_utf8();
        self.fault(FaultKind::CurlyQuotes, self.start, self.end);
        Some(Token::Leaf(Kind::Text))
    }
}
