//! Words as the grower typed them: borrowed from the file, or owned when the file spelt them with escapes.

use serde::de::{Deserialize, Deserializer, Error, Visitor};
use serde::{Serialize, Serializer};
use std::borrow::Cow;
use std::fmt;
use std::ops::Deref;

/// Free text of a record. Borrowed text keeps its place in the file for free, by its address.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct FreeText<'t>(pub Cow<'t, str>);

impl Deref for FreeText<'_> {
    type Target = str;

    fn deref(&self) -> &str {
        &self.0
    }
}

struct FreeTextVisitor;

impl<'t> Visitor<'t> for FreeTextVisitor {
    type Value = FreeText<'t>;

    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("a text in double quotes")
    }

    fn visit_borrowed_str<E: Error>(self, text: &'t str) -> Result<FreeText<'t>, E> {
        Ok(FreeText(Cow::Borrowed(text)))
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<FreeText<'t>, E> {
        Ok(FreeText(Cow::Owned(text.to_owned())))
    }

    fn visit_string<E: Error>(self, text: String) -> Result<FreeText<'t>, E> {
        Ok(FreeText(Cow::Owned(text)))
    }
}

impl<'de: 't, 't> Deserialize<'de> for FreeText<'t> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        from.deserialize_str(FreeTextVisitor)
    }
}

impl Serialize for FreeText<'_> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.serialize_str(self)
    }
}
