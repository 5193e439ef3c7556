//! Groups of the plainest RON: lists, records and words with brackets, each element read by `plain`.

use super::plain_reader::{NotPlain, Reader};
use serde::de::value::BorrowedStrDeserializer;
use serde::de::{
    DeserializeSeed, Deserializer, EnumAccess, MapAccess, SeqAccess, VariantAccess, Visitor,
};

/// What stands between brackets, separated by commas.
pub(super) struct Separated<'r, 't> {
    reader: &'r mut Reader<'t>,
    closing: u8,
    /// Whether another element may come: at the start, and after a comma.
    open: bool,
}

impl<'r, 't> Separated<'r, 't> {
    pub fn new(reader: &'r mut Reader<'t>, closing: u8) -> Self {
        Self {
            reader,
            closing,
            open: true,
        }
    }

    fn has_more(&mut self) -> Result<bool, NotPlain> {
        if self.reader.next()? == Some(self.closing) {
            return Ok(false);
        }
        if self.open { Ok(true) } else { Err(NotPlain) }
    }

    fn read<T>(
        &mut self,
        element: impl FnOnce(&mut Reader<'t>) -> Result<T, NotPlain>,
    ) -> Result<T, NotPlain> {
        let element = element(self.reader)?;
        self.open = self.reader.takes(b',')?;
        Ok(element)
    }
}

impl<'de> SeqAccess<'de> for Separated<'_, 'de> {
    type Error = NotPlain;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, NotPlain> {
        if !self.has_more()? {
            return Ok(None);
        }
        self.read(|reader| seed.deserialize(reader)).map(Some)
    }
}

impl<'de> MapAccess<'de> for Separated<'_, 'de> {
    type Error = NotPlain;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, NotPlain> {
        if !self.has_more()? {
            return Ok(None);
        }
        let name = self.reader.word()?;
        seed.deserialize(BorrowedStrDeserializer::new(name))
            .map(Some)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, NotPlain> {
        self.reader.expect(b':')?;
        self.read(|reader| seed.deserialize(reader))
    }
}

impl<'de> EnumAccess<'de> for &mut Reader<'de> {
    type Error = NotPlain;
    type Variant = Self;

    fn variant_seed<V: DeserializeSeed<'de>>(self, seed: V) -> Result<(V::Value, Self), NotPlain> {
        let name = BorrowedStrDeserializer::<NotPlain>::new(self.word()?);
        Ok((seed.deserialize(name)?, self))
    }
}

impl<'de> VariantAccess<'de> for &mut Reader<'de> {
    type Error = NotPlain;

    fn unit_variant(self) -> Result<(), NotPlain> {
        Ok(())
    }

    fn newtype_variant_seed<T: DeserializeSeed<'de>>(self, seed: T) -> Result<T::Value, NotPlain> {
        self.expect(b'(')?;
        let value = seed.deserialize(&mut *self)?;
        self.takes(b',')?;
        self.expect(b')')?;
        Ok(value)
    }

    fn tuple_variant<V: Visitor<'de>>(self, len: usize, visitor: V) -> Result<V::Value, NotPlain> {
        self.deserialize_tuple(len, visitor)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, NotPlain> {
        self.deserialize_struct("", fields, visitor)
    }
}
