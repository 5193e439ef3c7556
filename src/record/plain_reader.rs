//! The plainest RON byte by byte: blanks and comments passed over, marks, words, numbers and texts taken.

use serde::de;
use std::fmt;

/// The page is not of the plainest form, or is faulty.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct NotPlain;

impl fmt::Display for NotPlain {
    fn fmt(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("not of the plainest form")
    }
}

impl std::error::Error for NotPlain {}

impl de::Error for NotPlain {
    fn custom<T: fmt::Display>(_: T) -> Self {
        NotPlain
    }

    fn unknown_field(_: &str, _: &'static [&'static str]) -> Self {
        NotPlain
    }

    fn unknown_variant(_: &str, _: &'static [&'static str]) -> Self {
        NotPlain
    }
}

/// A text and how far it is read.
pub(super) struct Reader<'t> {
    pub text: &'t str,
    pub at: usize,
}

impl<'t> Reader<'t> {
    fn byte(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    /// The next byte that is neither blank nor in a comment; `None` at the end.
    pub(super) fn next(&mut self) -> Result<Option<u8>, NotPlain> {
        loop {
            match self.byte() {
                Some(b' ' | b'\n' | b'\r' | b'\t') => self.at += 1,
                Some(b'/') => self.skip_comment()?,
                other => return Ok(other),
            }
        }
    }

    /// Skips a comment to the end of its line.
    fn skip_comment(&mut self) -> Result<(), NotPlain> {
        let rest = &self.text.as_bytes()[self.at..];
        if !rest.starts_with(b"//") {
            return Err(NotPlain);
        }
        let length = rest.iter().position(|&byte| byte == b'\n');
        self.at += length.ok_or(NotPlain)?;
        Ok(())
    }

    /// Takes a mark if it comes next.
    pub(super) fn takes(&mut self, mark: u8) -> Result<bool, NotPlain> {
        let is_next = self.next()? == Some(mark);
        self.at += usize::from(is_next);
        Ok(is_next)
    }

    pub(super) fn expect(&mut self, mark: u8) -> Result<(), NotPlain> {
        if self.takes(mark)? {
            Ok(())
        } else {
            Err(NotPlain)
        }
    }

    /// A word of lower-case letters, digits and `_`, which nothing follows that could belong to a word.
    pub(super) fn word(&mut self) -> Result<&'t str, NotPlain> {
        if !self.next()?.is_some_and(|byte| byte.is_ascii_lowercase()) {
            return Err(NotPlain);
        }
        let rest = &self.text[self.at..];
        let in_word = |byte: u8| byte.is_ascii_lowercase() || byte.is_ascii_digit() || byte == b'_';
        let length = rest.bytes().position(|byte| !in_word(byte));
        let length = length.ok_or(NotPlain)?;
        if !ends_a_word(rest.as_bytes()[length]) {
            return Err(NotPlain);
        }
        self.at += length;
        Ok(&rest[..length])
    }

    /// A whole number without sign, of at most nine digits.
    pub(super) fn number(&mut self) -> Result<u32, NotPlain> {
        self.next()?;
        let rest = &self.text[self.at..];
        let length = rest.bytes().position(|byte| !byte.is_ascii_digit());
        let length = length.ok_or(NotPlain)?;
        let leading_zero = length > 1 && rest.starts_with('0');
        if !(1..=9).contains(&length) || leading_zero || !ends_a_word(rest.as_bytes()[length]) {
            return Err(NotPlain);
        }
        self.at += length;
        rest[..length].parse().map_err(|_| NotPlain)
    }

    /// A text in double quotes, and whether it has escapes; with them it is still as typed, quotes included.
    pub(super) fn quoted(&mut self) -> Result<(&'t str, bool), NotPlain> {
        if self.next()? != Some(b'"') {
            return Err(NotPlain);
        }
        let opening = self.at;
        let bytes = self.text.as_bytes();
        let (mut at, mut escapes) = (opening + 1, false);
        loop {
            match bytes.get(at).ok_or(NotPlain)? {
                b'"' => break,
                b'\\' => (at, escapes) = (at + 2, true),
                _ => at += 1,
            }
        }
        self.at = at + 1;
        if escapes {
            Ok((&self.text[opening..=at], true))
        } else {
            Ok((&self.text[opening + 1..at], false))
        }
    }
}

/// Whether a byte after a word or number surely does not belong to it.
fn ends_a_word(byte: u8) -> bool {
    matches!(
        byte,
        b' ' | b'\n' | b'\r' | b'\t' | b',' | b':' | b'(' | b')' | b'[' | b']'
    )
}
