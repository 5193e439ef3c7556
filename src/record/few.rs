//! A list that is mostly empty and is held in many records: one word when there is nothing in it.

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use std::ops::{Deref, DerefMut};

/// Few records, mostly none.
// A boxed list is a thin pointer; a boxed slice would take two words in each of a million records.
#[allow(clippy::box_collection)]
#[derive(Debug)]
pub struct Few<T>(Option<Box<Vec<T>>>);

impl<T> Few<T> {
    /// Keeps those records that are to stay, in their order.
    pub fn retain_mut(&mut self, keep: impl FnMut(&mut T) -> bool) {
        if let Some(list) = &mut self.0 {
            list.retain_mut(keep);
        }
    }
}

impl<T> Default for Few<T> {
    fn default() -> Self {
        Few(None)
    }
}

impl<T> Deref for Few<T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        self.0.as_ref().map_or(&[], |list| list.as_slice())
    }
}

impl<T> DerefMut for Few<T> {
    fn deref_mut(&mut self) -> &mut [T] {
        self.0.as_mut().map_or(&mut [], |list| list.as_mut_slice())
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Few<T> {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let mut list = Vec::<T>::deserialize(from)?;
        list.shrink_to_fit();
        Ok(Few((!list.is_empty()).then(|| Box::new(list))))
    }
}

impl<T: Serialize> Serialize for Few<T> {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_seq(self.iter())
    }
}
