//! The plainest RON, read fast: records, lists, texts, whole numbers, words and line comments.
//!
//! Nearly every page consists of nothing else, and `ron` takes three times as long over it. Anything beyond it (raw
//! texts, block comments, `Some(…)`, names before records, numbers with signs, attributes) and anything wrong ends in
//! [`NotPlain`], upon which `ron` reads the page from its start: `ron` alone decides what is a fault and what it is
//! called. What is read here, `ron` reads the same way; `tests/scale/plain.rs` holds that line.

use super::plain_groups::Separated;
use super::plain_reader::{NotPlain, Reader};
use super::typed::typed;
use serde::de::{Deserialize, Deserializer, Visitor};
use serde::forward_to_deserialize_any;

/// Reads a whole text as one record.
pub(super) fn plainly<'t, T: Deserialize<'t>>(text: &'t str) -> Result<T, NotPlain> {
    let mut reader = Reader { text, at: 0 };
    let record = T::deserialize(&mut reader)?;
    match reader.next()? {
        None => Ok(record),
        Some(_) => Err(NotPlain),
    }
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
            (as_typed, true) => {
                let text = typed::<String>(as_typed).map_err(|_| NotPlain)?;
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
