//! Cuts a RON text into brackets, commas, colons and plain values, passing over blanks and comments.
//!
//! Which characters are blank, and how texts, characters and raw texts are written, follows the `ron` reader.

use super::classes::{is_number, is_wide_blank, is_word_byte, is_word_char};
use super::parts::{Fault, FaultKind, Kind};
use std::cell::Cell;

/// A piece of text between blanks.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Token {
    /// `(`, `[` or `{`.
    Open(Bracket),
    /// `)`, `]` or `}`.
    Close(Bracket),
    /// `,`.
    Comma,
    /// `:`.
    Colon,
    /// A value without brackets.
    Leaf(Kind),
    /// The end of the text.
    End,
}

/// The three pairs of brackets.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Bracket {
    Round,
    Square,
    Curly,
}

/// A reader of tokens; `start..end` is where the last one stands.
pub(super) struct Scanner<'t> {
    pub(super) text: &'t str,
    /// First byte of the last token.
    pub(super) start: usize,
    /// First byte after the last token.
    pub(super) end: usize,
    /// Where the line of the last token starts.
    pub(super) line_start: usize,
    /// Whether a text that runs over a line's end and is not followed by what must follow is taken to end with its
    /// first line.
    pub(super) by_layout: bool,
    begun: bool,
    /// Whether something has run to the end of the text without closing. From then on everything is sought in its own
    /// line only, so that a text full of opening marks is not read to its end for each of them.
    pub(super) ran_out: bool,
    /// A stretch known to hold no line end, up to one: asked again and again in a long line, it is sought once.
    line_rest: Cell<(usize, usize)>,
    pub(super) faults: Vec<Fault>,
}

impl<'t> Scanner<'t> {
    pub(super) fn new(text: &'t str, by_layout: bool) -> Self {
        Self {
            text,
            start: 0,
            end: 0,
            line_start: 0,
            by_layout,
            begun: false,
            ran_out: false,
            line_rest: Cell::new((0, 0)),
            faults: Vec::new(),
        }
    }

    /// Reads the next token.
    pub(super) fn next(&mut self) -> Token {
        loop {
            self.skip_blanks();
            self.start = self.end;
            let Some(&byte) = self.text.as_bytes().get(self.end) else {
                return Token::End;
            };
            self.end += 1;
            match self.token(byte) {
                Some(token) => {
                    self.begun = true;
                    return token;
                }
                None => continue,
            }
        }
    }

    fn token(&mut self, byte: u8) -> Option<Token> {
        let token = match byte {
            b'(' => Token::Open(Bracket::Round),
            b'[' => Token::Open(Bracket::Square),
            b'{' => Token::Open(Bracket::Curly),
            b')' => Token::Close(Bracket::Round),
            b']' => Token::Close(Bracket::Square),
            b'}' => Token::Close(Bracket::Curly),
            b',' => Token::Comma,
            b':' => Token::Colon,
            // Read as what was meant, so that one slip is told once.
            b';' => self.wrong_mark(Token::Comma),
            b'=' => self.wrong_mark(Token::Colon),
            b'"' => Token::Leaf(self.quoted(Kind::Text)),
            b'/' | b'-' | b'<' if self.begins_remark() => return self.remark(),
            b'0'..=b'9' | b'+' | b'-' | b'.' => Token::Leaf(self.number()),
            b'\'' => return self.character(),
            b'#' => return self.attribute(),
            _ => return self.word(),
        };
        Some(token)
    }

    pub(super) fn fault(&mut self, kind: FaultKind, start: usize, end: usize) {
        if let Some(last) = self.faults.last_mut()
            && kind == FaultKind::StrayCharacters
            && last.kind == kind
            && last.end as usize == start
        {
            last.end = end as u32;
            return;
        }
        self.faults.push(Fault {
            start: start as u32,
            end: end as u32,
            kind,
            other: None,
        });
    }

    fn wrong_mark(&mut self, meant: Token) -> Token {
        self.fault(FaultKind::WrongMark, self.start, self.end);
        meant
    }

    pub(super) fn rest(&self) -> &'t str {
        &self.text[self.end..]
    }

    pub(super) fn line_end(&self) -> usize {
        let (from, to) = self.line_rest.get();
        if from < self.end && self.end <= to {
            return to;
        }
        let rest = self.rest();
        let end = self.end + rest.find('\n').unwrap_or(rest.len());
        self.line_rest.set((self.end, end));
        end
    }

    /// How far to look for a closing mark.
    pub(super) fn limit(&self) -> usize {
        if self.ran_out {
            self.line_end()
        } else {
            self.text.len()
        }
    }

    /// Goes on to the next byte that is neither blank nor part of a comment.
    fn skip_blanks(&mut self) {
        let bytes = self.text.as_bytes();
        while let Some(&byte) = bytes.get(self.end) {
            match byte {
                b'\n' => {
                    self.end += 1;
                    self.line_start = self.end;
                }
                b' ' | b'\t' | b'\r' | 0x0b | 0x0c => self.end += 1,
                b'/' if bytes.get(self.end + 1) == Some(&b'/') => self.end = self.line_end(),
                b'/' if bytes.get(self.end + 1) == Some(&b'*') => self.skip_comment(),
                0x80.. => match self.rest().chars().next() {
                    Some(blank) if is_wide_blank(blank) => self.end += blank.len_utf8(),
                    _ => return,
                },
                _ => return,
            }
        }
    }

    /// Passes over `/* … */`, which may hold others; an unclosed one ends with its line.
    fn skip_comment(&mut self) {
        let (bytes, start) = (&self.text.as_bytes()[..self.limit()], self.end);
        let (mut depth, mut line_start) = (0usize, self.line_start);
        let mut at = start;
        while at < bytes.len() {
            match (bytes[at], bytes.get(at + 1)) {
                (b'/', Some(b'*')) => (depth, at) = (depth + 1, at + 2),
                (b'*', Some(b'/')) => (depth, at) = (depth - 1, at + 2),
                (b'\n', _) => (line_start, at) = (at + 1, at + 1),
                _ => at += 1,
            }
            if depth == 0 {
                (self.end, self.line_start) = (at, line_start);
                return;
            }
        }
        self.fault(FaultKind::UnclosedComment, start, start + 2);
        self.end = self.line_end();
        self.ran_out = true;
    }

    fn number(&mut self) -> Kind {
        self.end += self
            .rest()
            .bytes()
            .take_while(|byte| byte.is_ascii() && is_word_byte(*byte))
            .count();
        if !is_number(&self.text[self.start..self.end]) {
            self.fault(FaultKind::NotANumber, self.start, self.end);
        }
        Kind::Number
    }

    /// `#![…]` before the value is passed over; any other `#` is taken for a remark to the line's end.
    fn attribute(&mut self) -> Option<Token> {
        let rest = &self.text[self.end..self.limit()];
        let inside = rest.strip_prefix("![").filter(|_| !self.begun);
        self.ran_out |= inside.is_some_and(|inside| !inside.contains(']'));
        if let Some(length) = inside.and_then(|inside| inside.find(']')) {
            self.end += length + 3;
            return None;
        }
        self.remark()
    }

    /// Whether the line begins as remarks do elsewhere: with one slash, `--` or `<!--`.
    fn begins_remark(&self) -> bool {
        let marks = &self.text[self.start..];
        let is_mark =
            marks.starts_with('/') || marks.starts_with("--") || marks.starts_with("<!--");
        is_mark && self.text[self.line_start..self.start].trim().is_empty()
    }

    /// A remark that begins with another mark than `//`, to the line's end.
    fn remark(&mut self) -> Option<Token> {
        self.end = self.line_end();
        self.fault(FaultKind::WrongRemark, self.start, self.end);
        None
    }

    /// A bare word, or a text that begins with a letter, or something that means nothing.
    fn word(&mut self) -> Option<Token> {
        self.end = self.start;
        let prefix = ["br", "b", "r"]
            .into_iter()
            .find(|prefix| self.is_prefixed(prefix));
        if let Some(kind) = prefix.and_then(|prefix| self.prefixed(prefix)) {
            return Some(Token::Leaf(kind));
        }
        let raw = self.rest().starts_with("r#") && self.rest()[2..].starts_with(is_word_char);
        let skipped = if raw { 2 } else { 0 };
        let word: usize = skipped + self.word_length(self.end + skipped);
        if word == 0 {
            return self.other_character();
        }
        self.end += word;
        if !raw && self.text[self.start..self.end].contains(['.', '+', '-']) {
            self.fault(FaultKind::BareText, self.start, self.end);
        }
        Some(Token::Leaf(Kind::Word))
    }

    fn word_length(&self, from: usize) -> usize {
        let rest = &self.text[from..];
        let ascii = rest
            .bytes()
            .take_while(|byte| byte.is_ascii() && is_word_byte(*byte))
            .count();
        match rest.as_bytes().get(ascii) {
            Some(0x80..) => rest.find(|c| !is_word_char(c)).unwrap_or(rest.len()),
            _ => ascii,
        }
    }
}

/// The first token at or after a byte that does not lie within one, and where it starts.
pub(super) fn token_at(text: &str, offset: usize) -> (Token, usize) {
    let mut scanner = Scanner::new(text, false);
    (scanner.end, scanner.begun) = (offset, true);
    (scanner.next(), scanner.start)
}
