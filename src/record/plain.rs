//! The plainest RON, read fast: records, lists, texts, whole numbers, words and line comments.
//!
//! Nearly every page consists of nothing else, and `ron` takes three times as long over it. Anything beyond it (raw
//! texts, block comments, `Some(…)`, names before records, numbers with signs, attributes) and anything wrong ends in
//! [`NotPlain`], upon which `ron` reads the page from its start: `ron` alone decides what is a fault and what it is
//! called. What is read here, `ron` reads the same way; `tests/scale/plain.rs` holds that line.

use super::plain_groups::Separated;
use serde::de::{self, Deserialize, Deserializer, Visitor};
use serde::forward_to_deserialize_any;
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

/// Reads a whole text as one record.
pub(super) fn plainly<'t, T: Deserialize<'t>>(text: &'t str) -> Result<T, NotPlain> {
    let mut reader = Reader { text, at: 0 };
    let record = T::deserialize(&mut reader)?;
    match reader.next()? {
        None => Ok(record),
        Some(_) => Err(NotPlain),
    }
}

/// A text and how far it is read.
pub(super) struct Reader<'t> {
    text: &'t str,
    at: usize,
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
    fn number(&mut self) -> Result<u32, NotPlain> {
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
    fn quoted(&mut self) -> Result<(&'t str, bool), NotPlain> {
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

impl<'de> Deserializer<'de> for &mut Reader<'de> {
    type Error = NotPlain;

    /// No record asks for a value of any kind, and none of them is recursive.
    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, NotPlain> {
        Err(NotPlain)
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        match self.quoted()? {
            (text, false) => visitor.visit_borrowed_str(text),
            (typed, true) => {
                let text = super::read::typed::<String>(typed).map_err(|_| NotPlain)?;
                visitor.visit_string(text)
            }
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        match self.word()? {
            "true" => visitor.visit_bool(true),
            "false" => visitor.visit_bool(false),
            _ => Err(NotPlain),
        }
    }

    fn deserialize_u8<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        visitor.visit_u32(self.number()?)
    }

    fn deserialize_u16<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        visitor.visit_u32(self.number()?)
    }

    fn deserialize_u32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        visitor.visit_u32(self.number()?)
    }

    fn deserialize_i32<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        visitor.visit_u32(self.number()?)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        match self.next()? {
            Some(b'N' | b'S') => Err(NotPlain),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        self.expect(b'[')?;
        let list = visitor.visit_seq(Separated::new(self, b']'))?;
        self.expect(b']')?;
        Ok(list)
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        _: usize,
        visitor: V,
    ) -> Result<V::Value, NotPlain> {
        self.expect(b'(')?;
        let tuple = visitor.visit_seq(Separated::new(self, b')'))?;
        self.expect(b')')?;
        Ok(tuple)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, NotPlain> {
        self.expect(b'(')?;
        let record = visitor.visit_map(Separated::new(self, b')'))?;
        self.expect(b')')?;
        Ok(record)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, NotPlain> {
        visitor.visit_enum(self)
    }

    forward_to_deserialize_any! {
        i8 i16 i64 i128 u64 u128 f32 f64 char string bytes byte_buf unit unit_struct newtype_struct tuple_struct map
        identifier ignored_any
    }
}
