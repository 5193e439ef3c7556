//! Cuts a RON text into brackets, commas, colons and plain values, passing over blanks and comments.
//!
//! Which characters are blank, and how texts, characters and raw texts are written, is as the `ron` reader has it.

use super::parts::{Fault, FaultKind, Kind};

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
    by_layout: bool,
    begun: bool,
    /// Whether something has run to the end of the text without closing. From then on everything is sought in its own
    /// line only, so that a text full of opening marks is not read to its end for each of them.
    ran_out: bool,
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
            b'"' => Token::Leaf(self.quoted(Kind::Text)),
            b'0'..=b'9' | b'+' | b'-' | b'.' => Token::Leaf(self.number()),
            b'\'' => return self.character(),
            b'#' => return self.attribute(),
            _ => return self.word(),
        };
        Some(token)
    }

    fn fault(&mut self, kind: FaultKind, start: usize, end: usize) {
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

    fn rest(&self) -> &'t str {
        &self.text[self.end..]
    }

    fn line_end(&self) -> usize {
        let rest = self.rest();
        self.end + rest.find('\n').unwrap_or(rest.len())
    }

    /// How far to look for a closing mark.
    fn limit(&self) -> usize {
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

    /// A text whose opening quotation mark has been read.
    fn quoted(&mut self, kind: Kind) -> Kind {
        let bytes = &self.text.as_bytes()[..self.limit()];
        let mut at = self.end;
        while let Some(&byte) = bytes.get(at) {
            match byte {
                b'"' => return self.quoted_to(at, 1, kind),
                b'\\' => at += 2,
                _ => at += 1,
            }
        }
        self.ran_out = true;
        self.unclosed_text();
        kind
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
    fn raw(&mut self, kind: Kind) -> Option<Kind> {
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

    /// A character whose opening mark has been read.
    fn character(&mut self) -> Option<Token> {
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
            self.fault(FaultKind::StrayCharacters, self.start, self.end);
            return None;
        };
        self.end += close + 1;
        Some(Token::Leaf(Kind::Char))
    }

    /// `#![…]` before the value is passed over; any other `#` is taken for a remark to the line's end.
    fn attribute(&mut self) -> Option<Token> {
        let line_end = self.line_end();
        let rest = &self.text[self.end..self.limit()];
        let inside = rest.strip_prefix("![").filter(|_| !self.begun);
        self.ran_out |= inside.is_some_and(|inside| !inside.contains(']'));
        if let Some(length) = inside.and_then(|inside| inside.find(']')) {
            self.end += length + 3;
        } else {
            self.fault(FaultKind::HashRemark, self.start, line_end);
            self.end = line_end;
        }
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

    fn is_prefixed(&self, prefix: &str) -> bool {
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
    fn prefixed(&mut self, prefix: &str) -> Option<Kind> {
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
    fn other_character(&mut self) -> Option<Token> {
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

/// The first token at or after a byte that does not lie within one, and where it starts.
pub(super) fn token_at(text: &str, offset: usize) -> (Token, usize) {
    let mut scanner = Scanner::new(text, false);
    (scanner.end, scanner.begun) = (offset, true);
    (scanner.next(), scanner.start)
}

fn is_wide_blank(c: char) -> bool {
    matches!(
        c,
        '\u{85}' | '\u{200e}' | '\u{200f}' | '\u{2028}' | '\u{2029}'
    )
}

/// What a word or number is made of; `.`, `+` and `-` are faults in a word that is not raw.
fn is_word_byte(byte: u8) -> bool {
    byte.is_ascii_alphanumeric() || matches!(byte, b'_' | b'.' | b'+' | b'-')
}

fn is_word_char(c: char) -> bool {
    if c.is_ascii() {
        is_word_byte(c as u8)
    } else {
        c.is_alphanumeric()
    }
}

fn is_curly(c: char) -> bool {
    matches!(c, '“' | '”' | '„' | '‟' | '«' | '»' | '‘' | '’')
}

fn is_quote(c: char) -> bool {
    c == '"' || is_curly(c)
}

/// Whether a text may end before this: what follows a value is a comma, a colon, a closing bracket or the end.
fn may_follow(rest: &str) -> bool {
    let next = rest.trim_start();
    next.is_empty() || next.starts_with([',', ')', ']', '}', ':', '/'])
}

/// Whether RON reads this as a number: a sign, `inf` or `NaN`, digits to base 2, 8, 10 or 16, or a decimal number with
/// an exponent; then perhaps its size, such as `u8`.
fn is_number(word: &str) -> bool {
    if word.bytes().all(|byte| byte.is_ascii_digit()) {
        return true;
    }
    let word = word.strip_prefix(['+', '-']).unwrap_or(word);
    let word = [
        "i8", "i16", "i32", "i64", "i128", "u8", "u16", "u32", "u64", "u128", "f32", "f64",
    ]
    .iter()
    .filter(|_| !word.starts_with("0x"))
    .find_map(|size| word.strip_suffix(size))
    .unwrap_or(word);
    let digits = |digits: &str, base: u32| {
        digits.chars().any(|c| c.is_digit(base))
            && digits.chars().all(|c| c == '_' || c.is_digit(base))
    };
    match word.get(..2) {
        Some("0x") => return digits(&word[2..], 16),
        Some("0b") => return digits(&word[2..], 2),
        Some("0o") => return digits(&word[2..], 8),
        _ => {}
    }
    let (number, exponent) = word.split_once(['e', 'E']).unwrap_or((word, "0"));
    let exponent = exponent.strip_prefix(['+', '-']).unwrap_or(exponent);
    let plain = number.replacen('.', "", 1);
    word == "inf" || word == "NaN" || (digits(&plain, 10) && digits(exponent, 10))
}
